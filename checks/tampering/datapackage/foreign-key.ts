import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a reference is turned on another table',
  layer: 'tables',
  names: 'foreignKeys',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][1].schema.foreignKeys[0].reference.resource = 'samples'
    }),
}
