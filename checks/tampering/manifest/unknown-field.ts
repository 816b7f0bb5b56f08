import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest says more than a manifest does',
  layer: 'manifest',
  names: 'approvedBy',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['approvedBy'] = 'everyone'
    }),
}
