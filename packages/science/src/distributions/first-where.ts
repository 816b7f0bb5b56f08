/**
 * The first whole number of a range for which something holds that stays true once it is; the end of the range where it never does.
 *
 * @param range from `least` up to `most`, whole numbers
 * @param holds of a number
 * @source none: it computes nothing of the trade
 * @example
 * firstWhere({ least: 0, most: 9 }, (k) => k * k > 10) // => 4
 */
export function firstWhere({ least, most }: { least: number; most: number }, holds: (k: number) => boolean): number {
  let [low, high] = [least, most]
  while (low < high) {
    const middle = Math.floor((low + high) / 2)
    if (holds(middle)) high = middle
    else low = middle + 1
  }
  return low
}
