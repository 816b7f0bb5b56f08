import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a heading is renamed',
  layer: 'tables',
  names: 'results.csv line 1',
  tamper: () => retext('tables/results.csv', (before) => before.replace('status', 'state')),
}
