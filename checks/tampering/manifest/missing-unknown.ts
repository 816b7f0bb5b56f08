import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest lists as missing what no entry names',
  layer: 'manifest',
  names: 'files the record names',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['missing'] = [head.hash]
    }),
}
