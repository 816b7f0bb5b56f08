import { nodeHash, leafHash } from '@rillmark/casebook/chain/merkle.ts'
import { leafData } from '@rillmark/casebook/receipt/record-tree.ts'
import { rejson } from '../contents.ts'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a lone last node is paired with itself',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      let row = links.map((link) => leafHash(leafData(link)))
      while (row.length > 1)
        row = row.flatMap((left, at) => (at % 2 === 1 ? [] : [nodeHash(left, row[at + 1] ?? left)]))
      tree['root'] = row[0]
    }),
}
