import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a number of the manifest is written another way',
  layer: 'manifest',
  names: 'the same said otherwise',
  tamper: () => retext('manifest.json', (before) => before.replace('"entries": 22', '"entries": 2.2e1')),
}
