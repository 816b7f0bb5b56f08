import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a temperature is raised in the table',
  layer: 'tables',
  names: 'readings.csv line 2',
  tamper: () => retext('tables/readings.csv', (before) => before.replace('48.5', '58.5')),
}
