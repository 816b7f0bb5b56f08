import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest names another format',
  layer: 'manifest',
  names: 'format',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['format'] = 'rillmark/package@2'
    }),
}
