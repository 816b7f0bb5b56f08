import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table begins with a mark of byte order',
  layer: 'tables',
  names: 'cases.csv line 1',
  tamper: () => retext('tables/cases.csv', (before) => `\uFEFF${before}`),
}
