/** Readings that hold the same cells, from the first to the last, and how many. */
export interface Groups {
  first: Int32Array
  last: Int32Array
  count: Float64Array
  readings: number
}

const STILL = 1e-13
/** A cell without a share must not want one by more than this. */
const NO_PULL = 1e-9
const MOST_WORK = 1e9

/**
 * The likeliest shares of neighbouring cells, when readings only tell which run of cells holds each.
 *
 * By turns: each share times (Σ over the readings that hold it of 1 / share of all such a reading holds) / n, which is the reading's own
 * step, and Newton's step on the running sums, kept rising and halved until likelier. It ends where no share moves and no empty cell
 * wants one: the proof that nothing is likelier.
 *
 * @param groups readings by the cells they hold
 * @param cells how many cells
 * @throws RangeError when the shares have not settled within the work allowed
 * @source turnbull-1976
 * @source wellner-zhan-1997
 * @example
 * likeliestShares({ first: Int32Array.of(0, 1), last: Int32Array.of(0, 1), count: Float64Array.of(1, 3), readings: 4 }, 2)[1] // => 0.75
 */
export function likeliestShares(groups: Groups, cells: number): Float64Array {
  let shares: Float64Array = new Float64Array(cells).fill(1 / cells)
  const rounds = Math.ceil(MOST_WORK / (cells + groups.count.length))
  for (let round = 0; round < rounds; round++) {
    const { next, moved, pull } = selfConsistent(groups, shares)
    if (moved < STILL && pull < NO_PULL) return shares
    shares = round % 2 === 0 ? newtonShares(groups, next) : next
  }
  throw new RangeError('Cannot tell the distribution because its shares do not settle: got too many limits')
}

function runningSums(shares: Float64Array): Float64Array {
  const upTo = new Float64Array(shares.length + 1)
  for (let k = 0; k < shares.length; k++) upTo[k + 1] = (upTo[k] ?? 0) + (shares[k] ?? 0)
  return upTo
}

/** The step of the readings: new shares, how far they moved in all, and the strongest pull on a cell. */
function selfConsistent({ first, last, count, readings }: Groups, shares: Float64Array) {
  const upTo = runningSums(shares)
  const weight = new Float64Array(shares.length + 1)
  for (let g = 0; g < count.length; g++) {
    const [from, to] = [first[g] ?? 0, (last[g] ?? 0) + 1]
    const held = to === from + 1 ? (shares[from] ?? 0) : (upTo[to] ?? 0) - (upTo[from] ?? 0)
    const each = (count[g] ?? 0) / Math.max(held, Number.MIN_VALUE)
    weight[from] = (weight[from] ?? 0) + each
    weight[to] = (weight[to] ?? 0) - each
  }
  const next = new Float64Array(shares.length)
  let [sum, moved, pull] = [0, 0, 0]
  for (let k = 0; k < shares.length; k++) {
    sum += weight[k] ?? 0
    const [share, factor] = [shares[k] ?? 0, sum / readings]
    next[k] = share * factor
    moved += Math.abs(share * factor - share)
    pull = Math.max(pull, factor - 1)
  }
  return { next, moved, pull }
}

const SHORTEST_STEP = 1e-6

function newtonShares(groups: Groups, shares: Float64Array): Float64Array {
  const upTo = runningSums(shares)
  upTo[shares.length] = 1
  const target = newtonSums(groups, upTo)
  const before = logLikelihood(groups, upTo)
  for (let size = 1; size > SHORTEST_STEP; size /= 2) {
    const sums = upTo.map((at, k) => at + size * ((target[k] ?? 0) - at))
    if (logLikelihood(groups, sums) > before) return shares.map((_, k) => (sums[k + 1] ?? 0) - (sums[k] ?? 0))
  }
  return shares
}

/** Minus infinity where a reading would hold nothing. */
function logLikelihood({ first, last, count }: Groups, upTo: Float64Array): number {
  let sum = 0
  for (let g = 0; g < count.length; g++) {
    const held = (upTo[(last[g] ?? 0) + 1] ?? 0) - (upTo[first[g] ?? 0] ?? 0)
    if (!(held > 0)) return Number.NEGATIVE_INFINITY
    sum += (count[g] ?? 0) * Math.log(held)
  }
  return sum
}

/** Newton's step of every running sum by itself, from 0 at the start to 1 at the end. */
function newtonSums({ first, last, count }: Groups, upTo: Float64Array): Float64Array {
  const slope = new Float64Array(upTo.length)
  const curve = new Float64Array(upTo.length)
  for (let g = 0; g < count.length; g++) {
    const [from, to, n] = [first[g] ?? 0, (last[g] ?? 0) + 1, count[g] ?? 0]
    const held = (upTo[to] ?? 0) - (upTo[from] ?? 0)
    slope[to] = (slope[to] ?? 0) + n / held
    slope[from] = (slope[from] ?? 0) - n / held
    curve[to] = (curve[to] ?? 0) + n / held / held
    curve[from] = (curve[from] ?? 0) + n / held / held
  }
  const inner = upTo.length - 2
  const wanted = Float64Array.from(
    { length: inner },
    (_, i) => (upTo[i + 1] ?? 0) + (slope[i + 1] ?? 0) / (curve[i + 1] ?? 1),
  )
  const sums = madeToRise(wanted, curve.subarray(1, inner + 1))
  return Float64Array.of(0, ...sums.map((sum) => Math.min(1, Math.max(0, sum))), 1)
}

/** The rising numbers nearest to those given, by weighed squares: neighbours out of order take their mean. */
function madeToRise(values: Float64Array, weights: Float64Array): Float64Array {
  const blocks: { value: number; weight: number; size: number }[] = []
  for (const [i, value] of values.entries()) {
    let block = { value, weight: weights[i] ?? 0, size: 1 }
    for (let before = blocks.at(-1); before !== undefined && before.value >= block.value; before = blocks.at(-1)) {
      const weight = before.weight + block.weight
      const mean = (before.value * before.weight + block.value * block.weight) / weight
      block = { value: mean, weight, size: before.size + block.size }
      blocks.pop()
    }
    blocks.push(block)
  }
  const out = new Float64Array(values.length)
  let next = 0
  for (const { value, size } of blocks) {
    out.fill(value, next, next + size)
    next += size
  }
  return out
}
