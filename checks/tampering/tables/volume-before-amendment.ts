import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an amended volume is set back in the table',
  layer: 'tables',
  names: 'samples.csv line 2',
  tamper: () => retext('tables/samples.csv', (before) => before.replace(',500,', ',1000,')),
}
