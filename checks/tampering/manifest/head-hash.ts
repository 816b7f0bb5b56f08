import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest names another head',
  layer: 'manifest',
  names: 'head',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['head'].hash = head.hash.replace(/^./, (first) => (first === 'a' ? 'b' : 'a'))
    }),
}
