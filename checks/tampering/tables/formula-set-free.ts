import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the mark that keeps a formula harmless is taken off',
  layer: 'tables',
  names: 'exposures.csv line 2',
  tamper: () => retext('tables/exposures.csv', (before) => before.replace("'=", '=')),
}
