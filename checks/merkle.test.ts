// Hash trees against an independent reckoning (oracles/merkle.py: Python's hashlib and the definitions of RFC 6962) and against the roots
// of the public reference tests of certificate transparency, written down from memory before they were reckoned.
import { readFileSync } from 'node:fs'
import { MerkleTree } from '@rillmark/casebook/chain/merkle.ts'
import { verifyConsistency, verifyInclusion } from '@rillmark/casebook/chain/merkle-proof.ts'
import { expect, test } from 'vitest'

interface Oracle {
  readonly leaves: string[]
  readonly leafHashes: string[]
  readonly roots: string[]
  readonly inclusion: { index: number; size: number; path: string[] }[]
  readonly consistency: { earlier: number; size: number; path: string[] }[]
}

const oracle = JSON.parse(readFileSync(new URL('oracles/merkle.json', import.meta.url), 'utf8')) as Oracle
const tree = new MerkleTree()
const leafHashes = oracle.leaves.map((leaf) => tree.append(Buffer.from(leaf, 'hex')))

/** memory: roots of the first n of those leaves, as the reference tests of certificate transparency have them */
const REMEMBERED = [
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
]

test.each(REMEMBERED.map((root, size) => ({ size, root })))(
  '[PRF1] root of the first $size reference leaves (memory: certificate transparency reference tests; computed: merkle.py)',
  ({ size, root }) => {
    expect(tree.root(size)).toBe(oracle.roots[size])
    expect(tree.root(size)).toBe(root)
  },
)

test('[PRF1] leaf hashes (computed: merkle.py)', () => {
  expect(leafHashes).toEqual(oracle.leafHashes)
})

test('[PRF1] every inclusion proof of every size (computed: merkle.py), and each holds', () => {
  expect(oracle.inclusion).toHaveLength(36)
  for (const { index, size, path } of oracle.inclusion) {
    expect(tree.inclusionProof(index, size)).toEqual(path)
    const claim = { index, size, path, leaf: leafHashes[index] ?? '', root: oracle.roots[size] ?? '' }
    expect(verifyInclusion(claim)).toBe(true)
  }
})

test('[PRF1] every consistency proof of every pair of sizes (computed: merkle.py), and each holds', () => {
  expect(oracle.consistency).toHaveLength(36)
  for (const { earlier, size, path } of oracle.consistency) {
    expect(tree.consistencyProof(earlier, size)).toEqual(path)
    const at = (count: number) => ({ size: count, root: oracle.roots[count] ?? '' })
    expect(verifyConsistency({ earlier: at(earlier), later: at(size), path })).toBe(true)
  }
})
