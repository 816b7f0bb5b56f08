/** A line that stands across a timeline and what is written beside it. */
export interface Upright {
  readonly x: number
  readonly words: string
}

export interface PlacedUpright<U extends Upright = Upright> {
  readonly upright: U
  /** from the top; the line starts here and runs down through all rows below */
  readonly row: number
  readonly side: 'right' | 'left'
}

/** Of the words on a drawing, of 12 px: generous, so that a wider letter touches nothing. */
const LETTER_PX = 6.8
const GAP_PX = 5

/** From where to where the words of an upright stand. */
export function wordsSpan({ upright: { x, words }, side }: Pick<PlacedUpright, 'upright' | 'side'>): [number, number] {
  const width = words.length * LETTER_PX
  return side === 'right' ? [x + GAP_PX, x + GAP_PX + width] : [x - GAP_PX - width, x - GAP_PX]
}

/** Of so many all orders are tried; of more only that of the places, from either side. */
const MOST_ORDERED = 6

/**
 * Gives each upright a row and a side such that no words touch other words, a line or the edge, as far as that can be had, in as few rows
 * as can be; to the right where there is room. In the order given.
 */
export function placeUprights<U extends Upright>(uprights: readonly U[], width: number): readonly PlacedUpright<U>[] {
  const tried = ordersOf(uprights).map((order) => {
    const placed: PlacedUpright<U>[] = []
    for (const upright of order) placed.push(firstFree(upright, { placed, width }))
    return { placed, worth: touching(placed) * 1000 + rowsOf(placed) }
  })
  const [best] = tried.toSorted((a, b) => a.worth - b.worth)
  const placed = best?.placed ?? []
  return uprights.flatMap((upright) => placed.find((each) => each.upright === upright) ?? [])
}

function ordersOf<U extends Upright>(uprights: readonly U[]): readonly (readonly U[])[] {
  if (uprights.length <= MOST_ORDERED) return permutations(uprights)
  const byPlace = uprights.toSorted((a, b) => a.x - b.x)
  return [byPlace, byPlace.toReversed()]
}

function permutations<T>(all: readonly T[]): readonly (readonly T[])[] {
  if (all.length <= 1) return [all]
  return all.flatMap((first) => permutations(all.filter((each) => each !== first)).map((rest) => [first, ...rest]))
}

const rowsOf = (placed: readonly PlacedUpright[]): number => Math.max(0, ...placed.map(({ row }) => row + 1))

/** How many words touch something. */
export function touching(placed: readonly PlacedUpright[]): number {
  return placed.filter((one) => placed.some((other) => one !== other && touch(one, other))).length
}

function firstFree<U extends Upright>(
  upright: U,
  { placed, width }: { placed: readonly PlacedUpright<U>[]; width: number },
): PlacedUpright<U> {
  const sides = (['right', 'left'] as const).filter((side) => isInside(wordsSpan({ upright, side }), width))
  // below all others nothing but their lines is in the way
  for (let row = 0; row <= placed.length; row += 1)
    for (const side of sides) {
      const tried = { upright, row, side }
      if (placed.every((other) => !touch(tried, other) && !touch(other, tried))) return tried
    }
  return { upright, row: placed.length, side: sides[0] ?? 'right' }
}

const isInside = ([from, to]: [number, number], width: number): boolean => from >= 0 && to <= width

/** Whether the words of one touch the words of another in their row, or its line, which runs down from its own row. */
function touch(one: PlacedUpright, other: PlacedUpright): boolean {
  const [from, to] = wordsSpan(one)
  const [first, last] = wordsSpan(other)
  if (one.row === other.row && from < last + GAP_PX && first < to + GAP_PX) return true
  return other.row <= one.row && other.upright.x > from - GAP_PX && other.upright.x < to + GAP_PX
}
