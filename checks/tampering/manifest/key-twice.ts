import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest says a thing twice',
  layer: 'manifest',
  names: 'the same said otherwise',
  tamper: () => retext('manifest.json', (before) => before.replace('{', '{"title": "Quay Hotel",')),
}
