import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest begins with a mark of byte order',
  layer: 'manifest',
  names: 'manifest.json',
  tamper: () => retext('manifest.json', (before) => `\uFEFF${before}`),
}
