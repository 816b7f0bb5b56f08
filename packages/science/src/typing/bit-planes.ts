/**
 * Profiles written so that 32 loci are compared at once. Of 32 neighbouring loci one word says which of them have a class at all (the
 * mask), and one word for each bit of the classes' numbers says which have that bit (a plane). Two profiles agree where both masks are 1
 * and no plane differs. Loci with few classes stand together, so they need few planes; those with one class need the mask alone.
 */
export interface BitPlanes {
  /** Planes of each block of 32 loci, ascending. */
  planes: Uint8Array
  /** How many blocks at the beginning have none. */
  masksOnly: number
  /** Words of one profile: for each block its mask, then its planes. */
  wordsPerProfile: number
  words: Int32Array
}

/** A locus: the class of each profile, 0 … classes − 1, or −1 where it has none. */
export interface ClassedLocus {
  classOf: Int32Array
  classes: number
}

const LOCI_PER_WORD = 32
const NONE = -1

/**
 * Bits that tell so many classes apart: none for one.
 *
 * @param classes how many
 * @source none: it computes nothing of the trade
 * @example
 * bitsFor(5) // => 3
 */
export function bitsFor(classes: number): number {
  return 32 - Math.clz32(Math.max(0, classes - 1))
}

/**
 * Packs classes into masks and planes.
 *
 * @param loci the class of each profile at each locus
 * @param profiles how many
 * @source none: it computes nothing of the trade
 * @example
 * bitPlanes([{ classOf: Int32Array.of(0, 1), classes: 2 }], 2).words[3] // => 1
 */
export function bitPlanes(loci: readonly ClassedLocus[], profiles: number): BitPlanes {
  const sorted = loci.toSorted((a, b) => a.classes - b.classes)
  const blocks = Array.from({ length: Math.ceil(sorted.length / LOCI_PER_WORD) }, (_, b) =>
    sorted.slice(b * LOCI_PER_WORD, (b + 1) * LOCI_PER_WORD),
  )
  const planes = Uint8Array.from(blocks, (block) => bitsFor(block.at(-1)?.classes ?? 1))
  const wordsPerProfile = planes.reduce((sum, count) => sum + count + 1, 0)
  const words = new Int32Array(wordsPerProfile * profiles)
  let offset = 0
  for (const [b, block] of blocks.entries()) {
    for (const [bit, { classOf }] of block.entries())
      writeLocus(classOf, { words, wordsPerProfile, offset, bit, planes: planes[b] ?? 0 })
    offset += (planes[b] ?? 0) + 1
  }
  return { planes, masksOnly: planes.filter((count) => count === 0).length, wordsPerProfile, words }
}

interface Place {
  words: Int32Array
  wordsPerProfile: number
  offset: number
  bit: number
  planes: number
}

function writeLocus(classOf: Int32Array, { words, wordsPerProfile, offset, bit, planes }: Place): void {
  for (let profile = 0, at = offset; profile < classOf.length; profile++, at += wordsPerProfile) {
    const number = classOf[profile] as number
    if (number === NONE) continue
    words[at] = (words[at] as number) | (1 << bit)
    for (let plane = 0; plane < planes; plane++)
      words[at + 1 + plane] = (words[at + 1 + plane] as number) | (((number >>> plane) & 1) << bit)
  }
}

/** Some neighbouring profiles, each with its row of a number for every profile. */
export interface Band {
  top: number
  bottom: number
  profiles: number
  /** Row a − top, column b. Only columns beyond the diagonal are counted. */
  counts: Uint16Array
}

/** So many profiles at a time stay in the processor's near memory. */
const TILE = 32

/**
 * Adds to each pair of a band and a later profile the loci at which the two agree.
 *
 * @param packed profiles as masks and planes
 * @param band which rows, and where the counts are
 * @source none: it computes nothing of the trade
 */
export function addAgreements(packed: BitPlanes, band: Band): void {
  if (packed.wordsPerProfile === 0) return
  const { top, bottom, profiles, counts } = band
  for (let left = top + 1; left < profiles; left += TILE)
    for (let a = top; a < bottom; a++) {
      const row = (a - top) * profiles
      for (let b = Math.max(a + 1, left); b < Math.min(left + TILE, profiles); b++)
        counts[row + b] =
          (counts[row + b] as number) + agreeing(packed, a * packed.wordsPerProfile, b * packed.wordsPerProfile)
    }
}

/** The inner loops of it all: plain steps over typed arrays. */
function agreeing({ planes, masksOnly, words }: BitPlanes, ofOne: number, ofOther: number): number {
  let total = agreeingMasks(words, { ofOne, ofOther, blocks: masksOnly })
  let i = ofOne + masksOnly
  let j = ofOther + masksOnly
  for (let block = masksOnly; block < planes.length; block++) {
    const both = (words[i] as number) & (words[j] as number)
    const end = i + (planes[block] as number)
    let different = 0
    while (i < end) {
      i += 1
      j += 1
      different |= (words[i] as number) ^ (words[j] as number)
    }
    i += 1
    j += 1
    total += onesInNibbles(nibbles(both & ~different))
  }
  return total
}

/** Sums of four bits hold three words, and sums of eight bits ten of those. */
const WORDS_AT_ONCE = 3
const WORDS_PER_SUM = 30

function agreeingMasks(
  words: Int32Array,
  { ofOne, ofOther, blocks }: { ofOne: number; ofOther: number; blocks: number },
): number {
  let total = 0
  let i = ofOne
  let j = ofOther
  const end = ofOne + blocks
  const inThrees = end - (blocks % WORDS_AT_ONCE)
  while (i < inThrees) {
    const stop = Math.min(inThrees, i + WORDS_PER_SUM)
    let eights = 0
    for (; i < stop; i += WORDS_AT_ONCE, j += WORDS_AT_ONCE) {
      const fours =
        nibbles((words[i] as number) & (words[j] as number)) +
        nibbles((words[i + 1] as number) & (words[j + 1] as number)) +
        nibbles((words[i + 2] as number) & (words[j + 2] as number))
      eights += (fours & 0x0f0f0f0f) + ((fours >>> 4) & 0x0f0f0f0f)
    }
    const sixteens = (eights & 0x00ff00ff) + ((eights >>> 8) & 0x00ff00ff)
    total += (sixteens + (sixteens >>> 16)) & 0xffff
  }
  for (; i < end; i++, j++) total += onesInNibbles(nibbles((words[i] as number) & (words[j] as number)))
  return total
}

/** How many of each four neighbouring bits are 1, in the place of those bits. */
function nibbles(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555)
  return (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333)
}

function onesInNibbles(fours: number): number {
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24
}
