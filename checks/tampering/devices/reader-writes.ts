import { nextBy, NOTE, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a reader writes',
  layer: 'devices',
  names: 'its role is reader',
  tamper: () => appended(nextBy('tablet-1', NOTE)),
}
