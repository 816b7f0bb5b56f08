import { nextBy, NOTE, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a revoked device writes on',
  layer: 'devices',
  names: 'not revoked',
  tamper: () => appended(nextBy('phone-2', NOTE)),
}
