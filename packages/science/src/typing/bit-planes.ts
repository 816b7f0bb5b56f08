/**
 * Profiles written so that 32 loci are compared at once: bit k of the allele's number, for 32 neighbouring loci, makes one word (a
 * plane). Two profiles differ at a locus when any of its planes differ. Loci with few alleles stand together, so they need few planes.
 */
export interface BitPlanes {
  /** Planes of each block of 32 loci. */
  planes: Uint8Array
  /** Words of one profile: for each block a mask of missing loci, then its planes. */
  wordsPerProfile: number
  words: Int32Array
}

const LOCI_PER_WORD = 32
const MISSING = -1

/**
 * Packs allele numbers into bit planes.
 *
 * @param codes loci × profiles, locus by locus; −1 where missing, else 0, 1, 2 …
 * @param profiles how many
 * @source none: it computes nothing of the trade
 * @example
 * bitPlanes([Int32Array.of(0, 1)], 2).words[3] // => 1
 */
export function bitPlanes(codes: readonly Int32Array[], profiles: number): BitPlanes {
  const bits = (locus: Int32Array) => Math.ceil(Math.log2(locus.reduce((most, code) => Math.max(most, code + 1), 1)))
  const sorted = codes.map((locus) => ({ locus, bits: bits(locus) })).toSorted((a, b) => a.bits - b.bits)
  const blocks = Array.from({ length: Math.ceil(sorted.length / LOCI_PER_WORD) }, (_, b) =>
    sorted.slice(b * LOCI_PER_WORD, (b + 1) * LOCI_PER_WORD),
  )
  const planes = Uint8Array.from(blocks, (block) => block.at(-1)?.bits ?? 0)
  const wordsPerProfile = planes.reduce((sum, count) => sum + count + 1, 0)
  const words = new Int32Array(wordsPerProfile * profiles)
  let offset = 0
  for (const [b, block] of blocks.entries()) {
    for (const [bit, { locus }] of block.entries())
      writeLocus({ words, wordsPerProfile, offset, bit, planes: planes[b] ?? 0 }, locus)
    offset += (planes[b] ?? 0) + 1
  }
  return { planes, wordsPerProfile, words }
}

interface Place {
  words: Int32Array
  wordsPerProfile: number
  offset: number
  bit: number
  planes: number
}

function writeLocus({ words, wordsPerProfile, offset, bit, planes }: Place, locus: Int32Array): void {
  for (const [profile, code] of locus.entries()) {
    const at = profile * wordsPerProfile + offset
    if (code === MISSING) words[at] = (words[at] ?? 0) | (1 << bit)
    else
      for (let plane = 0; plane < planes; plane++)
        words[at + 1 + plane] = (words[at + 1 + plane] ?? 0) | (((code >>> plane) & 1) << bit)
  }
}

export interface Comparisons {
  /** Loci known in both that differ, profile by profile; row a, column b at a × profiles + b. */
  differences: Uint16Array
  /** Loci missing in either. */
  missing: Uint16Array
}

/** So many profiles at a time stay in the processor's near memory. */
const TILE = 32

/**
 * Counts, for every pair of profiles, the loci at which they differ and those missing in either. The half with a ≤ b is filled.
 *
 * @param packed profiles as bit planes
 * @param profiles how many
 * @source none: it computes nothing of the trade
 * @example
 * comparePlanes(bitPlanes([Int32Array.of(0, 1, -1)], 3), 3).differences[1] // => 1
 */
export function comparePlanes(packed: BitPlanes, profiles: number): Comparisons {
  const counts = { differences: new Uint16Array(profiles * profiles), missing: new Uint16Array(profiles * profiles) }
  for (let top = 0; top < profiles; top += TILE)
    for (let left = top; left < profiles; left += TILE) compareTile(packed, { ...counts, profiles, top, left })
  return counts
}

interface Tile extends Comparisons {
  profiles: number
  top: number
  left: number
}

/** The inner loop of it all: plain steps over typed arrays. */
function compareTile({ planes, wordsPerProfile, words }: BitPlanes, tile: Tile): void {
  const { differences, missing, profiles, top, left } = tile
  const blocks = planes.length
  for (let a = top; a < Math.min(top + TILE, profiles); a++)
    for (let b = Math.max(a, left); b < Math.min(left + TILE, profiles); b++) {
      let i = a * wordsPerProfile
      let j = b * wordsPerProfile
      let [differing, absentLoci] = [0, 0]
      for (let block = 0; block < blocks; block++) {
        const absent = (words[i] as number) | (words[j] as number)
        const end = i + (planes[block] as number)
        let different = 0
        while (i < end) {
          i += 1
          j += 1
          different |= (words[i] as number) ^ (words[j] as number)
        }
        i += 1
        j += 1
        differing += onesIn(different & ~absent)
        if (absent !== 0) absentLoci += onesIn(absent)
      }
      differences[a * profiles + b] = differing
      missing[a * profiles + b] = absentLoci
    }
}

/** How many bits of a word are 1. */
function onesIn(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555)
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333)
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24
}
