import { addAgreements, type Band, bitPlanes, bitsFor, type ClassedLocus } from './bit-planes.ts'
import { addCompanions, companions } from './companions.ts'

const NONE = -1

/** What the two ways cost, one word of one pair of profiles being 1; measured, and only the speed hangs on it. */
const COUNTING_BITS = 3
const ONE_PAIR = 2
const ONE_MEMBER = 12
const LOCI_PER_WORD = 32

/**
 * Counts at how many loci two profiles are in the same class, for every pair.
 *
 * Common classes are compared 32 loci at a time by their bits; the members of rare ones are listed, so that only pairs which agree are
 * touched. Which classes are common enough is reckoned for each locus, so that neither a handful of alleles nor hundreds are slow.
 *
 * @param loci the class of each profile at each locus
 * @param profiles how many
 * @returns a function that counts into a band of rows
 * @source none: it computes nothing of the trade
 */
export function agreements(loci: readonly ClassedLocus[], profiles: number): (band: Band) => void {
  const parted = loci.map((locus) => byFrequency(locus, profiles))
  const packed = bitPlanes(
    parted.flatMap(({ common }) => common ?? []),
    profiles,
  )
  const lists = companions(
    parted.flatMap(({ rare }) => rare ?? []),
    profiles,
  )
  return (band) => {
    band.counts.fill(0)
    addAgreements(packed, band)
    addCompanions(lists, band)
  }
}

interface Parted {
  common?: ClassedLocus
  rare?: ClassedLocus
}

/** The classes of a locus that are compared by bits, and those whose members are listed. */
function byFrequency({ classOf, classes }: ClassedLocus, profiles: number): Parted {
  const sizes = new Int32Array(classes)
  for (let profile = 0; profile < profiles; profile++) {
    const number = classOf[profile] as number
    if (number !== NONE) sizes[number] = (sizes[number] as number) + 1
  }
  const order = [...sizes.keys()].toSorted((a, b) => (sizes[b] as number) - (sizes[a] as number))
  const kept = cheapest(
    order.map((number) => sizes[number] as number),
    profiles,
  )
  if (kept === 0) return { rare: { classOf, classes } }
  const rank = new Int32Array(classes)
  for (const [place, number] of order.entries()) rank[number] = place
  const common = { classOf: new Int32Array(profiles).fill(NONE), classes: kept }
  const rare = { classOf: new Int32Array(profiles).fill(NONE), classes: classes - kept }
  for (let profile = 0; profile < profiles; profile++) {
    const number = classOf[profile] as number
    if (number === NONE) continue
    const place = rank[number] as number
    if (place < kept) common.classOf[profile] = place
    else rare.classOf[profile] = place - kept
  }
  return kept === classes ? { common } : { common, rare }
}

/** How many of the classes, largest first, to compare by bits; the rest are listed. */
function cheapest(sizes: readonly number[], profiles: number): number {
  const pairs = (profiles * profiles) / 2
  const listed = new Float64Array(sizes.length + 1)
  for (let i = sizes.length - 1; i >= 0; i--) {
    const size = sizes[i] as number
    listed[i] = (listed[i + 1] as number) + (size * size * ONE_PAIR) / 2 + size * ONE_MEMBER
  }
  let [best, least] = [0, listed[0] as number]
  for (let kept = 1; ; kept = Math.min(sizes.length, 2 * kept)) {
    const bits = (pairs * (COUNTING_BITS + bitsFor(kept))) / LOCI_PER_WORD
    const cost = bits + (listed[kept] as number)
    if (cost < least) [best, least] = [kept, cost]
    if (kept >= sizes.length) return best
  }
}
