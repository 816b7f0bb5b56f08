import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest lists a file twice',
  layer: 'manifest',
  names: 'twice',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'].push({ ...manifest['files'][0] })
    }),
}
