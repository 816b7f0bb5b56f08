/** More halvings than a double has digits: only a place at 0 itself ever takes them all. */
const ENOUGH_HALVINGS = 80

/**
 * The place up to which something holds and from which it no longer does, by halving.
 *
 * Special cases: near the end where it holds throughout, near the start where it holds nowhere.
 *
 * @param holds of a place; true before the one sought, false after it
 * @param within where to look
 * @source numerical-safeguard
 * @example
 * placeWhereItEnds((x) => x < 3, { from: 0, to: 10 }) // => 3
 */
export function placeWhereItEnds(holds: (x: number) => boolean, within: { from: number; to: number }): number {
  let { from, to } = within
  for (let step = 0; step < ENOUGH_HALVINGS; step++) {
    const middle = (from + to) / 2
    if (middle === from || middle === to) break
    if (holds(middle)) from = middle
    else to = middle
  }
  return to
}
