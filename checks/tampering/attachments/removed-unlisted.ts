import { behindManifest, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is taken out behind the back of the manifest',
  layer: 'files',
  names: 'attachments/',
  tamper: () =>
    behindManifest((files) => {
      delete files[pathOf(files, 'attachments/')]
    }),
}
