/**
 * How closely two lists rise together by rank, −1 to 1 (Spearman); equal values share the mean of their ranks. Nothing where one list
 * holds one value only.
 *
 * @param a values
 * @param b as many values
 * @throws RangeError when they differ in number
 * @source spearman-1904
 * @example
 * rankCorrelation(Float64Array.of(1, 2, 3), Float64Array.of(10, 1000, 20)) // => 0.5
 */
export function rankCorrelation(a: Float64Array, b: Float64Array): number | undefined {
  if (a.length !== b.length)
    throw new RangeError(`Cannot correlate because there must be as many of both: got ${a.length} and ${b.length}`)
  const [ranksA, ranksB] = [ranksOf(a), ranksOf(b)]
  const middle = (a.length + 1) / 2
  let [together, ofA, ofB] = [0, 0, 0]
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [(ranksA[i] ?? 0) - middle, (ranksB[i] ?? 0) - middle]
    together += x * y
    ofA += x * x
    ofB += y * y
  }
  return ofA === 0 || ofB === 0 ? undefined : together / Math.sqrt(ofA * ofB)
}

function ranksOf(values: Float64Array): Float64Array {
  const order = Uint32Array.from(values, (_, at) => at).sort((i, j) => (values[i] ?? 0) - (values[j] ?? 0))
  const ranks = new Float64Array(values.length)
  let from = 0
  while (from < order.length) {
    let to = from
    while (to + 1 < order.length && values[order[to + 1] ?? 0] === values[order[from] ?? 0]) to += 1
    for (let at = from; at <= to; at++) ranks[order[at] ?? 0] = (from + to) / 2 + 1
    from = to + 1
  }
  return ranks
}
