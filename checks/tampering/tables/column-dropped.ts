import { relined } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a column is dropped',
  layer: 'tables',
  names: 'readings.csv line 1',
  tamper: () => relined('tables/readings.csv', (lines) => lines.map((line) => line.split(',').slice(0, -1).join(','))),
}
