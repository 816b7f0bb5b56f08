import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a formula is put into a cell',
  layer: 'tables',
  names: 'measures.csv line 2',
  tamper: () => retext('tables/measures.csv', (before) => before.replace('riser A', '=1+1')),
}
