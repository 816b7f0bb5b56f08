import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest is written without spaces',
  layer: 'manifest',
  names: 'the same said otherwise',
  tamper: () => retext('manifest.json', (before) => JSON.stringify(JSON.parse(before))),
}
