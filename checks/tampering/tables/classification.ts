import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a case is classified otherwise in the table',
  layer: 'tables',
  names: 'cases.csv line 2',
  tamper: () => retext('tables/cases.csv', (before) => before.replace('probable', 'confirmed')),
}
