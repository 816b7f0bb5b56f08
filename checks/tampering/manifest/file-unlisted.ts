import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest leaves a file out',
  layer: 'files',
  names: 'does not list',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'] = manifest['files'].filter((file: { path: string }) => file.path !== 'tree.json')
    }),
}
