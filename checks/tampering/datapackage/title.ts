import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the description carries another title',
  layer: 'tables',
  names: 'title',
  tamper: () =>
    rejson('datapackage.json', (described) => {
      described['title'] = 'Quay Hotel'
    }),
}
