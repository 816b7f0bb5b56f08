import { createHash } from 'node:crypto'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { MerkleTree } from './merkle.ts'
import { verifyConsistency, verifyInclusion } from './merkle-proof.ts'

// The definitions of RFC 6962, sections 2.1 to 2.1.2, word for word and as slow as they stand there.
const sha = (...parts: Uint8Array[]): Buffer => createHash('sha256').update(Buffer.concat(parts)).digest()
const splitOf = (n: number): number => 2 ** Math.ceil(Math.log2(n) - 1)

function mth(d: Uint8Array[]): Buffer {
  const [first] = d
  if (first === undefined) return sha()
  if (d.length === 1) return sha(Uint8Array.of(0), first)
  const k = splitOf(d.length)
  return sha(Uint8Array.of(1), mth(d.slice(0, k)), mth(d.slice(k)))
}

function path(m: number, d: Uint8Array[]): Buffer[] {
  if (d.length === 1) return []
  const k = splitOf(d.length)
  return m < k ? [...path(m, d.slice(0, k)), mth(d.slice(k))] : [...path(m - k, d.slice(k)), mth(d.slice(0, k))]
}

function subproof(m: number, { d, b }: { d: Uint8Array[]; b: boolean }): Buffer[] {
  if (m === d.length) return b ? [] : [mth(d)]
  const k = splitOf(d.length)
  return m <= k
    ? [...subproof(m, { d: d.slice(0, k), b }), mth(d.slice(k))]
    : [...subproof(m - k, { d: d.slice(k), b: false }), mth(d.slice(0, k))]
}

const hex = (hashes: Buffer[]): string[] => hashes.map((hash) => hash.toString('hex'))
const leavesOf = (size: number): Uint8Array[] => Array.from({ length: size }, (_, n) => Buffer.from(`link ${n}`))

function treeOf(leaves: readonly Uint8Array[]): MerkleTree {
  const tree = new MerkleTree()
  for (const leaf of leaves) tree.append(leaf)
  return tree
}

test('[PRF1] root and proofs of every size up to 40 are those of the definition, from one tree that grew', () => {
  const leaves = leavesOf(40)
  const tree = treeOf(leaves)
  for (let size = 0; size <= leaves.length; size += 1) {
    const d = leaves.slice(0, size)
    expect(tree.root(size)).toBe(mth(d).toString('hex'))
    for (let m = 0; m < size; m += 1) expect(tree.inclusionProof(m, size)).toEqual(hex(path(m, d)))
    for (let m = 1; m <= size; m += 1) expect(tree.consistencyProof(m, size)).toEqual(hex(subproof(m, { d, b: true })))
  }
})

test('[PRF1] any leaves, any size: the fast tree and the slow definition agree, and their proofs hold', () => {
  const leaves = fc.array(fc.uint8Array({ maxLength: 70 }), { minLength: 1, maxLength: 90 })
  fc.assert(
    fc.property(leaves, fc.nat(), fc.nat(), (d, a, b) => {
      const tree = treeOf(d)
      const [index, earlier] = [a % d.length, 1 + (b % d.length)]
      const [root, size] = [tree.root(), d.length]
      expect(root).toBe(mth(d).toString('hex'))
      const inclusion = tree.inclusionProof(index)
      expect(inclusion).toEqual(hex(path(index, d)))
      const leaf = sha(Uint8Array.of(0), d[index] ?? Buffer.alloc(0)).toString('hex')
      expect(verifyInclusion({ index, size, leaf, path: inclusion, root })).toBe(true)
      const proof = tree.consistencyProof(earlier)
      expect(proof).toEqual(hex(subproof(earlier, { d, b: true })))
      const claim = { earlier: { size: earlier, root: tree.root(earlier) }, later: { size, root }, path: proof }
      expect(verifyConsistency(claim)).toBe(true)
    }),
    { numRuns: 300 },
  )
})

test('[PRF1] a tree asked for what it does not hold says so', () => {
  const tree = treeOf(leavesOf(5))
  expect(() => tree.root(6)).toThrow('has 5 leaves: got 6')
  expect(() => tree.inclusionProof(5)).toThrow('has none there: got 5')
  expect(() => tree.inclusionProof(-1)).toThrow('got -1')
  expect(() => tree.consistencyProof(6)).toThrow('got 6')
})
