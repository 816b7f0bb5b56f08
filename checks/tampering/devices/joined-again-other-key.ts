import { signedBy, unsignedNext, joinOf, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device joins a second time with another key',
  layer: 'devices',
  names: 'has not joined yet',
  tamper: () =>
    appended(signedBy('forger', unsignedNext('phone-1', joinOf('phone-1', { role: 'lead', by: 'forger' })))),
}
