import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a result is given in another unit',
  layer: 'tables',
  names: 'results.csv line 2',
  tamper: () => retext('tables/results.csv', (before) => before.replace('CFU/L', 'CFU/mL')),
}
