import { nextBy, joinOf, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device joins a second time with its own key',
  layer: 'devices',
  names: 'has not joined yet',
  tamper: () => appended(nextBy('phone-1', joinOf('phone-1', { role: 'sampler', by: 'phone-1' }))),
}
