import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest is no JSON',
  layer: 'manifest',
  names: 'manifest.json',
  tamper: () => retext('manifest.json', (before) => before.slice(0, -4)),
}
