import { behindManifest } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the verifier is taken out behind the back of the manifest',
  layer: 'files',
  names: 'verify.html',
  tamper: () =>
    behindManifest((files) => {
      delete files['verify.html']
    }),
}
