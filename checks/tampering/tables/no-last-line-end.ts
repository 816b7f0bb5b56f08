import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the last line has no end',
  layer: 'tables',
  names: 'cases.csv line 3',
  tamper: () => retext('tables/cases.csv', (before) => before.trimEnd()),
}
