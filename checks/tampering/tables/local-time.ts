import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an instant is written in local time',
  layer: 'tables',
  names: 'samples.csv line 2',
  tamper: () => retext('tables/samples.csv', (before) => before.replace('.000Z', '.000+01:00')),
}
