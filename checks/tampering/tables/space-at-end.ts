import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a space is put behind a cell',
  layer: 'tables',
  names: 'cases.csv line 2',
  tamper: () => retext('tables/cases.csv', (before) => before.replace('kept', 'kept ')),
}
