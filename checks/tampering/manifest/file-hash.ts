import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest gives a file another hash',
  layer: 'files',
  names: 'tree.json',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'].find((file: { path: string }) => file.path === 'tree.json').sha256 = head.hash
    }),
}
