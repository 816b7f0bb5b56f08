import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys is written without spaces',
  layer: 'keys',
  names: 'written as a package is',
  tamper: () => retext('keys.json', (before) => JSON.stringify(JSON.parse(before))),
}
