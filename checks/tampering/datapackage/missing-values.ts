import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a value is described as none',
  layer: 'tables',
  names: 'missingValues',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][2].schema.missingValues = ['', '10']
    }),
}
