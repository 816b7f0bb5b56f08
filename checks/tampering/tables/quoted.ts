import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'cells are quoted that need it not',
  layer: 'tables',
  names: 'cases.csv line 1',
  tamper: () => retext('tables/cases.csv', (before) => before.replace('code', '"code"')),
}
