import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest counts other entries',
  layer: 'manifest',
  names: 'counts.entries',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['counts'].entries = 20
    }),
}
