import { nextBy, joinOf, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a revoked device joins again',
  layer: 'devices',
  names: 'not revoked',
  tamper: () => appended(nextBy('phone-2', joinOf('phone-2', { role: 'sampler', by: 'phone-2' }))),
}
