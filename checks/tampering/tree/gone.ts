import { without } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree is taken out',
  layer: 'tree',
  names: 'tree.json',
  tamper: () => without('tree.json'),
}
