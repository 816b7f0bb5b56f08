import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a date is written day first',
  layer: 'tables',
  names: 'results.csv line 2',
  tamper: () => retext('tables/results.csv', (before) => before.replace('2026-03-12', '12.03.2026')),
}
