import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a sample is made one of another kind in the table',
  layer: 'tables',
  names: 'samples.csv line 2',
  tamper: () => retext('tables/samples.csv', (before) => before.replace('bulk hot', 'bulk cold')),
}
