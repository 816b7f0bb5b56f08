import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a column is described with a decimal comma',
  layer: 'tables',
  names: 'decimalChar',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][2].schema.fields[6].decimalChar = ','
    }),
}
