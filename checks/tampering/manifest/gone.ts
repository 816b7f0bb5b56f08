import { behindManifest } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'there is no manifest',
  layer: 'manifest',
  names: 'manifest.json',
  tamper: () =>
    behindManifest((files) => {
      delete files['manifest.json']
    }),
}
