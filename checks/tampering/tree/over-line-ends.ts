import { utf8ToBytes } from '@noble/hashes/utils.js'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { MerkleTree } from '@rillmark/casebook/chain/merkle.ts'
import { rejson } from '../contents.ts'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree is made over lines with their line ends',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      const other = new MerkleTree()
      for (const link of links) other.append(utf8ToBytes(`${canonicalJson(link)}\n`))
      tree['root'] = other.root()
    }),
}
