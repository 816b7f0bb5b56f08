import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest carries another title',
  layer: 'manifest',
  names: 'title',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['title'] = 'Quay Hotel'
    }),
}
