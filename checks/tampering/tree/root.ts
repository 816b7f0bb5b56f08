import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the root of the tree is altered',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      tree['root'] = head.hash
    }),
}
