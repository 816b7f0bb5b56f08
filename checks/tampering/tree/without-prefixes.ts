import { sha256 } from '@noble/hashes/sha2.js'
import { leafData } from '@rillmark/casebook/receipt/record-tree.ts'
import { rejson } from '../contents.ts'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree is hashed without marks for leaves and nodes',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      const hash = (data: Uint8Array) => Buffer.from(sha256(data))
      let row = links.map((link) => hash(leafData(link)))
      while (row.length > 1)
        row = row.flatMap((left, at) =>
          at % 2 === 1 ? [] : [row[at + 1] === undefined ? left : hash(Buffer.concat([left, row[at + 1] ?? left]))],
        )
      tree['root'] = row[0]?.toString('hex')
    }),
}
