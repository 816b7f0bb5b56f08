import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'two columns exchange their headings',
  layer: 'tables',
  names: 'readings.csv line 1',
  tamper: () => retext('tables/readings.csv', (before) => before.replace('round,stop', 'stop,round')),
}
