import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is described as lying on a server',
  layer: 'tables',
  names: 'resources.0.path',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][0].path = 'https://example.org/cases.csv'
    }),
}
