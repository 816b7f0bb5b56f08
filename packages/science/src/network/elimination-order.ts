/** Unknowns and the pairs of them that share an equation; a pair may come more than once. */
export interface Pairs {
  count: number
  a: Int32Array
  b: Int32Array
}

/**
 * An order in which to eliminate unknowns so that few new pairs come about (smallest degree first, degrees bounded from above).
 * Wanted so that thousands of rings can be solved at once.
 *
 * @param pairs which unknowns meet in an equation
 * @source common-practice
 */
export function eliminationOrder(pairs: Pairs): Int32Array {
  return new Elimination(pairs).run()
}

/** Eliminated unknowns are kept as the set of those they joined: two lists instead of ever more pairs. */
class Elimination {
  readonly #near: number[][]
  readonly #sets: number[][]
  readonly #members: (number[] | undefined)[]
  readonly #degree: Int32Array
  readonly #done: Uint8Array
  readonly #mark: Int32Array
  #stamp = 0
  readonly #queue: number[][] = []
  #least = 0

  constructor({ count, a, b }: Pairs) {
    this.#near = Array.from({ length: count }, () => [])
    this.#sets = Array.from({ length: count }, () => [])
    this.#members = Array.from({ length: count })
    this.#degree = new Int32Array(count)
    this.#done = new Uint8Array(count)
    this.#mark = new Int32Array(count)
    for (let pair = 0; pair < a.length; pair += 1) {
      const [first, second] = [a[pair] as number, b[pair] as number]
      if (first === second) continue
      this.#near[first]?.push(second)
      this.#near[second]?.push(first)
    }
    for (let each = 0; each < count; each += 1) {
      const near = [...new Set(this.#near[each])]
      this.#near[each] = near
      this.#enqueue(each, near.length)
    }
  }

  run(): Int32Array {
    const order = new Int32Array(this.#degree.length)
    for (let at = 0; at < order.length; at += 1) {
      const next = this.#smallest()
      order[at] = next
      this.#eliminate(next)
    }
    return order
  }

  #enqueue(unknown: number, degree: number): void {
    this.#degree[unknown] = degree
    const bucket = (this.#queue[degree] ??= [])
    bucket.push(unknown)
    this.#least = Math.min(this.#least, degree)
  }

  #smallest(): number {
    for (;;) {
      const next = this.#queue[this.#least]?.pop()
      if (next === undefined) this.#least += 1
      else if (this.#done[next] === 0 && this.#degree[next] === this.#least) return next
    }
  }

  #eliminate(pivot: number): void {
    this.#done[pivot] = 1
    const joined = this.#joinedBy(pivot)
    this.#members[pivot] = joined
    for (const each of this.#sets[pivot] ?? []) this.#members[each] = undefined
    // joinedBy has marked what is joined
    for (const each of joined) {
      const near = (this.#near[each] ?? []).filter((other) => this.#mark[other] !== this.#stamp && other !== pivot)
      const sets = (this.#sets[each] ?? []).filter((set) => this.#members[set] !== undefined)
      sets.push(pivot)
      this.#near[each] = near
      this.#sets[each] = sets
      this.#enqueue(
        each,
        sets.reduce((sum, set) => sum + (this.#members[set]?.length ?? 0) - 1, near.length),
      )
    }
    this.#near[pivot] = []
    this.#sets[pivot] = []
  }

  #joinedBy(pivot: number): number[] {
    this.#stamp += 1
    this.#mark[pivot] = this.#stamp
    const joined: number[] = []
    const take = (other: number) => {
      if (this.#mark[other] === this.#stamp) return
      this.#mark[other] = this.#stamp
      joined.push(other)
    }
    for (const other of this.#near[pivot] ?? []) take(other)
    for (const set of this.#sets[pivot] ?? []) for (const other of this.#members[set] ?? []) take(other)
    return joined
  }
}
