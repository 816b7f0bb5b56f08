import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is described with another hash',
  layer: 'tables',
  names: 'resources.0.hash',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['resources'][0].hash = `sha256:${head.hash}`
    }),
}
