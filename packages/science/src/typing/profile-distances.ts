import type { RunOptions } from '../catalogue/descriptor.ts'
import { agreements } from './agreements.ts'
import type { ClassedLocus } from './bit-planes.ts'

export interface ProfileDistances {
  matrix: (number | null)[][]
  comparedLoci: number[][]
}

/** The class of a profile whose allele isn't known. */
export const MISSING = -1

/** So many rows are counted at a time. */
const BAND = 32

/**
 * At how many loci each two profiles differ, and how many are known in both.
 *
 * @param loci the alleles of each profile at each locus as classes, MISSING where it has none
 * @param of how many profiles, and who is told how far it is
 * @returns matrices, rows = columns = profiles; null where two have no locus in common
 * @source none: it counts
 * @example
 * profileDistances([{ classOf: Int32Array.of(0, 1), classes: 2 }], { profiles: 2 }).matrix[0] // => [0, 1]
 */
export function profileDistances(
  loci: readonly ClassedLocus[],
  { profiles, progress }: { profiles: number; progress?: RunOptions['progress'] },
): ProfileDistances {
  const gaps = gapsOf(loci)
  const matrices = emptyMatrices(profiles, { loci: loci.length, anyGaps: gaps.length > 0 })
  const countAgreeing = agreements(loci, profiles)
  const countGapsInBoth = agreements(gaps, profiles)
  const missing = missingLoci(gaps, profiles)
  const counts = new Uint16Array(BAND * profiles)
  const inBoth = new Uint16Array(BAND * profiles)
  for (let top = 0; top < profiles; top += BAND) {
    const bottom = Math.min(top + BAND, profiles)
    countAgreeing({ top, bottom, profiles, counts })
    if (gaps.length > 0) countGapsInBoth({ top, bottom, profiles, counts: inBoth })
    writeBand(matrices, { top, bottom, counts, inBoth, missing, loci: loci.length })
    progress?.(1 - ((profiles - bottom) / profiles) ** 2)
  }
  return matrices
}

/** A locus missing in some, as a class of those: two profiles agree in it where it is missing in both. */
function gapsOf(loci: readonly ClassedLocus[]): ClassedLocus[] {
  return loci
    .filter(({ classOf }) => classOf.includes(MISSING))
    .map(({ classOf }) => ({ classOf: classOf.map((number) => (number === MISSING ? 0 : MISSING)), classes: 1 }))
}

function missingLoci(gaps: readonly ClassedLocus[], profiles: number): Uint16Array {
  const missing = new Uint16Array(profiles)
  for (const { classOf } of gaps)
    for (let profile = 0; profile < profiles; profile++)
      if (classOf[profile] === 0) missing[profile] = (missing[profile] as number) + 1
  return missing
}

function emptyMatrices(profiles: number, { loci, anyGaps }: { loci: number; anyGaps: boolean }): ProfileDistances {
  const everyone = Array.from({ length: profiles }, () => loci)
  return {
    matrix: everyone.map(() => everyone.map((): number | null => 0)),
    /** Where nothing is missing all rows are the same one: a matrix of thousands need not be held twice. */
    comparedLoci: everyone.map(() => (anyGaps ? everyone.slice() : everyone)),
  }
}

interface CountedBand {
  top: number
  bottom: number
  counts: Uint16Array
  inBoth: Uint16Array
  missing: Uint16Array
  loci: number
}

/** Writes the rows of a band beyond the diagonal, and the same as columns; column by column, since those lie together in memory. */
function writeBand({ matrix, comparedLoci }: ProfileDistances, band: CountedBand): void {
  const { top, bottom, counts, inBoth, missing, loci } = band
  const profiles = matrix.length
  for (let b = top; b < profiles; b++) {
    const [distances = [], known = []] = [matrix[b], comparedLoci[b]]
    const own = loci - (missing[b] as number)
    if (b < bottom) known[b] = own
    for (let a = top; a < Math.min(b, bottom); a++) {
      const at = (a - top) * profiles + b
      const both = own - (missing[a] as number) + (inBoth[at] as number)
      const distance = both === 0 ? null : both - (counts[at] as number)
      distances[a] = distance
      ;(matrix[a] as (number | null)[])[b] = distance
      if (both === loci) continue
      known[a] = both
      ;(comparedLoci[a] as number[])[b] = both
    }
  }
}
