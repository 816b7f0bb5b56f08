import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a column is described as another type',
  layer: 'tables',
  names: 'schema.fields',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][2].schema.fields[6].type = 'string'
    }),
}
