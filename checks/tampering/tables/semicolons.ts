import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'columns are parted by semicolons',
  layer: 'tables',
  names: 'cases.csv line 1',
  tamper: () => retext('tables/cases.csv', (before) => before.replaceAll(',', ';')),
}
