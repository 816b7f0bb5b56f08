import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { rejson } from '../contents.ts'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree is that of an earlier record',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      tree['size'] = 20
      tree['root'] = recordTree(links).root(20)
    }),
}
