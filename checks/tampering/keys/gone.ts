import { without } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys is taken out',
  layer: 'keys',
  names: 'keys.json',
  tamper: () => without('keys.json'),
}
