import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is described with another separator',
  layer: 'tables',
  names: 'dialect',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][0].dialect = { delimiter: ';' }
    }),
}
