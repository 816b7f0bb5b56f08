import { EMPTY_ROOT, nodeHash } from './merkle.ts'

export interface InclusionClaim {
  /** the place of the leaf, from 0 */
  readonly index: number
  readonly size: number
  readonly leaf: string
  readonly path: readonly string[]
  readonly root: string
}

export interface ConsistencyClaim {
  readonly earlier: { readonly size: number; readonly root: string }
  readonly later: { readonly size: number; readonly root: string }
  readonly path: readonly string[]
}

const HASH = /^[0-9a-f]{64}$/

/** Whether a path shows a leaf to stand at its place in a tree of that size and root: RFC 9162, section 2.1.3.2. */
export function verifyInclusion({ index, size, leaf, path, root }: InclusionClaim): boolean {
  if (!isCount(index) || !isCount(size) || index >= size) return false
  if (![leaf, root, ...path].every((hash) => HASH.test(hash))) return false
  let place = { inTree: index, last: size - 1 }
  let hash = leaf
  for (const beside of path) {
    if (place.last === 0) return false
    const fromLeft = isOdd(place.inTree) || place.inTree === place.last
    hash = fromLeft ? nodeHash(beside, hash) : nodeHash(hash, beside)
    if (fromLeft) place = upToOdd(place)
    place = up(place)
  }
  return place.last === 0 && hash === root
}

/** Whether a path shows the earlier tree to be the beginning of the later one: RFC 9162, section 2.1.4.2. */
export function verifyConsistency({ earlier, later, path }: ConsistencyClaim): boolean {
  if (!isCount(earlier.size) || !isCount(later.size) || earlier.size > later.size) return false
  if (![earlier.root, later.root, ...path].every((hash) => HASH.test(hash))) return false
  if (earlier.size === later.size) return path.length === 0 && earlier.root === later.root
  if (earlier.size === 0) return path.length === 0 && earlier.root === EMPTY_ROOT
  return path.length > 0 && walkBoth({ earlier, later, path })
}

function walkBoth({ earlier, later, path }: ConsistencyClaim): boolean {
  const [start = '', ...rest] = Number.isInteger(Math.log2(earlier.size)) ? [earlier.root, ...path] : path
  let place = { inTree: earlier.size - 1, last: later.size - 1 }
  while (isOdd(place.inTree)) place = up(place)
  let [earlierHash, laterHash] = [start, start]
  for (const beside of rest) {
    if (place.last === 0) return false
    const fromLeft = isOdd(place.inTree) || place.inTree === place.last
    if (fromLeft) {
      earlierHash = nodeHash(beside, earlierHash)
      laterHash = nodeHash(beside, laterHash)
      place = upToOdd(place)
    } else laterHash = nodeHash(laterHash, beside)
    place = up(place)
  }
  return place.last === 0 && earlierHash === earlier.root && laterHash === later.root
}

interface Place {
  readonly inTree: number
  readonly last: number
}

// Halving by arithmetic, not by bit shifts: those would cut numbers off at 32 bits.
function up({ inTree, last }: Place): Place {
  return { inTree: Math.floor(inTree / 2), last: Math.floor(last / 2) }
}

/** Past the levels where a lone last node has nothing beside it. */
function upToOdd(from: Place): Place {
  let place = from
  while (!isOdd(place.inTree) && place.inTree !== 0) place = up(place)
  return place
}

function isOdd(count: number): boolean {
  return count % 2 === 1
}

function isCount(value: number): boolean {
  return Number.isSafeInteger(value) && value >= 0
}
