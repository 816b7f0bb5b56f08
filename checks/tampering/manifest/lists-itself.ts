import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest lists itself',
  layer: 'files',
  names: 'manifest.json',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'].push({ path: 'manifest.json', bytes: 1, sha256: head.hash })
    }),
}
