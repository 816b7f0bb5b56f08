import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree says more than a tree does',
  layer: 'tree',
  names: 'signedBy',
  tamper: () =>
    rejson('tree.json', (tree) => {
      tree['signedBy'] = 'everyone'
    }),
}
