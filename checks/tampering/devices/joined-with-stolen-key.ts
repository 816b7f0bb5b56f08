import { signedBy, unsignedNext, joinOf, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device joins with the public key of another',
  layer: 'signatures',
  names: 'signed by another key',
  tamper: () =>
    appended(signedBy('phone-9', unsignedNext('phone-9', joinOf('phone-9', { role: 'lead', by: 'desk-1' })))),
}
