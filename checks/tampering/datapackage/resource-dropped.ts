import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is left out of the description',
  layer: 'tables',
  names: 'resources',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'].shift()
    }),
}
