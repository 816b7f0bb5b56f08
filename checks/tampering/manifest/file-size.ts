import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest gives a file another size',
  layer: 'files',
  names: 'keys.json',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'].find((file: { path: string }) => file.path === 'keys.json').bytes = 3
    }),
}
