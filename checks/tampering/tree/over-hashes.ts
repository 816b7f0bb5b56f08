import { utf8ToBytes } from '@noble/hashes/utils.js'
import { MerkleTree } from '@rillmark/casebook/chain/merkle.ts'
import { rejson } from '../contents.ts'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree is made over the hashes of links in place of their lines',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      const other = new MerkleTree()
      for (const { hash } of links) other.append(utf8ToBytes(hash))
      tree['root'] = other.root()
    }),
}
