import type { Band, ClassedLocus } from './bit-planes.ts'

/** For classes of few profiles: who else is in them, so that no pair is looked at that doesn't agree. */
export interface Companions {
  /** The profiles of each class, ascending, with END behind each. */
  members: Int32Array
  /** Where each profile stands in `members`, one profile after the other. */
  places: Int32Array
  /** Where the places of each profile begin; one more than there are profiles. */
  starts: Int32Array
}

const NONE = -1
const END = -1

/**
 * Lists the profiles of each class.
 *
 * @param loci the class of each profile at each locus
 * @param profiles how many
 * @source none: it computes nothing of the trade
 * @example
 * companions([{ classOf: Int32Array.of(0, 1, 0), classes: 2 }], 3).members.join() // => "0,2,-1,1,-1"
 */
export function companions(loci: readonly ClassedLocus[], profiles: number): Companions {
  const starts = new Int32Array(profiles + 1)
  let classes = 0
  for (const locus of loci) {
    classes += locus.classes
    for (let profile = 0; profile < profiles; profile++)
      if (locus.classOf[profile] !== NONE) starts[profile + 1] = (starts[profile + 1] as number) + 1
  }
  for (let profile = 0; profile < profiles; profile++)
    starts[profile + 1] = (starts[profile + 1] as number) + (starts[profile] as number)
  const count = starts[profiles] as number
  const lists = { members: new Int32Array(count + classes).fill(END), places: new Int32Array(count), starts }
  const free = starts.slice()
  let from = 0
  for (const locus of loci) from = writeMembers(locus, { ...lists, free, from })
  return lists
}

function writeMembers(
  { classOf, classes }: ClassedLocus,
  { members, places, free, from }: Companions & { free: Int32Array; from: number },
): number {
  const next = new Int32Array(classes + 1)
  for (let profile = 0; profile < classOf.length; profile++) {
    const number = classOf[profile] as number
    if (number !== NONE) next[number + 1] = (next[number + 1] as number) + 1
  }
  next[0] = from
  for (let number = 1; number <= classes; number++)
    next[number] = (next[number] as number) + (next[number - 1] as number) + 1
  const behind = next[classes] as number
  for (let profile = 0; profile < classOf.length; profile++) {
    const number = classOf[profile] as number
    if (number === NONE) continue
    const place = next[number] as number
    next[number] = place + 1
    members[place] = profile
    places[free[profile] as number] = place
    free[profile] = (free[profile] as number) + 1
  }
  return behind
}

/**
 * Adds 1 to each pair of a band and a later profile for every class they share.
 *
 * @param lists who is in which class
 * @param band which rows, and where the counts are
 * @source none: it computes nothing of the trade
 */
export function addCompanions({ members, places, starts }: Companions, band: Band): void {
  const { top, bottom, profiles, counts } = band
  for (let a = top; a < bottom; a++) {
    const row = (a - top) * profiles
    for (let place = starts[a] as number; place < (starts[a + 1] as number); place++)
      for (let at = (places[place] as number) + 1, b = members[at] as number; b !== END; b = members[++at] as number)
        counts[row + b] = (counts[row + b] as number) + 1
  }
}
