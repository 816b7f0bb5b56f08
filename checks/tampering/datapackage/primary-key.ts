import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the key of a table is taken out',
  layer: 'tables',
  names: 'resources.0.schema.primaryKey',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      delete described['resources'][0].schema.primaryKey
    }),
}
