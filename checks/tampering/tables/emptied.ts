import { relined } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is emptied to its headings',
  layer: 'tables',
  names: 'readings.csv line 2',
  tamper: () => relined('tables/readings.csv', (lines) => lines.slice(0, 1)),
}
