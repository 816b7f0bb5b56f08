import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is described with another size',
  layer: 'tables',
  names: 'resources.0.bytes',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][0].bytes = 1
    }),
}
