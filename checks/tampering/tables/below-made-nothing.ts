import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a result below its limit is made a nought',
  layer: 'tables',
  names: 'results.csv line 2',
  tamper: () => retext('tables/results.csv', (before) => before.replace('below,10', 'count,0')),
}
