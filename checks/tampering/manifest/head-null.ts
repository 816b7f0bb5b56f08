import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest names no head',
  layer: 'manifest',
  names: 'head',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['head'] = null
    }),
}
