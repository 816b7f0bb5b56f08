import { utf8ToBytes } from '@noble/hashes/utils.js'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { EMPTY_ROOT, leafHash, MerkleTree } from './merkle.ts'
import { type ConsistencyClaim, type InclusionClaim, verifyConsistency, verifyInclusion } from './merkle-proof.ts'

const SIZE = 23
const tree = new MerkleTree()
const leaves = Array.from({ length: SIZE }, (_, n) => tree.append(utf8ToBytes(`link ${n}`)))

const inclusion = (index: number, size = SIZE): InclusionClaim => ({
  index,
  size,
  leaf: leaves[index] ?? '',
  path: tree.inclusionProof(index, size),
  root: tree.root(size),
})
const consistency = (earlier: number, size = SIZE): ConsistencyClaim => ({
  earlier: { size: earlier, root: tree.root(earlier) },
  later: { size, root: tree.root(size) },
  path: tree.consistencyProof(earlier, size),
})

const flip = (hash: string): string => `${hash.startsWith('0') ? '1' : '0'}${hash.slice(1)}`

const all = Array.from({ length: SIZE }, (_, n) => n + 1)

/** The same claim told in every way that is not so. */
function liesAbout(sound: InclusionClaim): InclusionClaim[] {
  const { index, size, path, root } = sound
  const others = Array.from({ length: size }, (_, n) => n).filter((n) => n !== index)
  return [
    ...others.map((other) => ({ ...sound, leaf: leaves[other] ?? '' })),
    ...others.map((other) => ({ ...sound, index: other })),
    { ...sound, root: flip(root) },
    { ...sound, path: [...path, root] },
    ...(path.length > 0 ? [{ ...sound, path: path.slice(1) }] : []),
    ...(path.length > 1 ? [{ ...sound, path: path.toReversed() }] : []),
  ]
}

test('[PRF2] a proof holds for its own leaf, place, size and root, and for no other', () => {
  const claims = all.flatMap((size) => Array.from({ length: size }, (_, index) => inclusion(index, size)))
  expect(claims.filter((claim) => !verifyInclusion(claim))).toEqual([])
  expect(claims.flatMap(liesAbout).filter(verifyInclusion)).toEqual([])
})

test('[PRF2] a proof of the beginning holds for its two trees and for no others', () => {
  const claims = all.flatMap((size) => all.slice(0, size).map((earlier) => consistency(earlier, size)))
  expect(claims.filter((claim) => !verifyConsistency(claim))).toEqual([])
  const lies = claims.flatMap((sound) => [
    { ...sound, earlier: { ...sound.earlier, root: flip(sound.earlier.root) } },
    { ...sound, later: { ...sound.later, root: flip(sound.later.root) } },
    { ...sound, path: [...sound.path, sound.later.root] },
    ...(sound.path.length > 0 ? [{ ...sound, path: sound.path.slice(1) }] : []),
  ])
  expect(lies.filter(verifyConsistency)).toEqual([])
})

test('[PRF2] one letter changed anywhere in a path, and it holds no more', () => {
  fc.assert(
    fc.property(fc.nat(SIZE - 1), fc.nat(), fc.nat(63), (index, step, letter) => {
      const sound = inclusion(index)
      const path = sound.path.map((hash, n) =>
        n === step % sound.path.length ? hash.slice(0, letter) + flip(hash.slice(letter)) : hash,
      )
      expect(verifyInclusion({ ...sound, path })).toBe(false)
    }),
  )
})

test('[PRF2] a node of the tree can’t pass as a leaf of a smaller tree', () => {
  const pair = new MerkleTree()
  const [left, right] = [pair.append(utf8ToBytes('link 0')), pair.append(utf8ToBytes('link 1'))]
  // without prefixes, the leaf "left right" would hash to the node above left and right
  const forged = leafHash(Buffer.from(left + right, 'hex'))
  expect(forged).not.toBe(pair.root())
  expect(verifyInclusion({ index: 0, size: 1, leaf: forged, path: [], root: pair.root() })).toBe(false)
})

test('[PRF2] numbers and hashes that are none prove nothing', () => {
  const sound = inclusion(3)
  for (const index of [-1, 0.5, Number.NaN, SIZE, 2 ** 53]) expect(verifyInclusion({ ...sound, index })).toBe(false)
  for (const size of [0, -1, Number.POSITIVE_INFINITY]) expect(verifyInclusion({ ...sound, size })).toBe(false)
  expect(verifyInclusion({ ...sound, leaf: sound.leaf.toUpperCase() })).toBe(false)
  expect(verifyInclusion({ ...sound, path: ['', ...sound.path] })).toBe(false)
  const nothing = { size: 0, root: EMPTY_ROOT }
  expect(verifyConsistency({ earlier: nothing, later: { size: SIZE, root: tree.root() }, path: [] })).toBe(true)
  expect(verifyConsistency({ ...consistency(3), earlier: { size: SIZE + 1, root: tree.root() } })).toBe(false)
})

test('[PRF2] sizes beyond 32 bits are not cut off: the last leaf after a complete tree of 2^33', () => {
  const index = 2 ** 33
  const last = { index, size: index + 1, leaf: leaves[1] ?? '', path: [leaves[0] ?? ''], root: tree.root(2) }
  expect(verifyInclusion(last)).toBe(true)
  expect(verifyInclusion({ ...last, index: 0 })).toBe(false)
  expect(verifyInclusion({ ...last, size: index })).toBe(false)
})
