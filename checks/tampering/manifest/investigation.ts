import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest names another investigation',
  layer: 'record',
  names: 'not tied',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['investigation'] = 'quay-hotel'
    }),
}
