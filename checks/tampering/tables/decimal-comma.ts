import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a decimal point is made a comma',
  layer: 'tables',
  names: 'readings.csv line 2',
  tamper: () => retext('tables/readings.csv', (before) => before.replace('48.5', '"48,5"')),
}
