import { utf8ToBytes } from '@noble/hashes/utils.js'
import { canonicalJson } from '../chain/canonical.ts'
import type { Link } from '../chain/link.ts'
import { MerkleTree } from '../chain/merkle.ts'

/** The bytes a link is in the tree: its line of the record, without the line feed. */
export function leafData(link: unknown): Uint8Array {
  return utf8ToBytes(canonicalJson(link))
}

/** The hash tree over the links of a record. */
export function recordTree(links: Iterable<Link>): MerkleTree {
  const tree = new MerkleTree()
  for (const link of links) tree.append(leafData(link))
  return tree
}
