import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the size of the tree is written as text',
  layer: 'tree',
  names: 'size',
  tamper: () =>
    rejson('tree.json', (tree) => {
      tree['size'] = '22'
    }),
}
