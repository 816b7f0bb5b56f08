import { eliminationOrder } from './elimination-order.ts'

/** Links between places; place 0 is held at head 0. */
export interface Links {
  places: number
  from: Int32Array
  to: Int32Array
}

/**
 * Heads of a net of linear conductors: factorised once for given conductances, then solved for many inflows.
 *
 * G h = b with G = A·diag(g)·Aᵀ, split as L·D·Lᵀ in an order that keeps L sparse. The order and the pattern of L are made once.
 */
export class Conductances {
  /** Multiplications that `factorise` takes. */
  readonly work: number
  readonly #unknowns: number
  readonly #rank: Int32Array
  readonly #from: Int32Array
  readonly #to: Int32Array
  /** Where a link's entry stands among the entries of the matrix's rows; −1 at the held place. */
  readonly #entry: Int32Array
  readonly #rowStart: Int32Array
  readonly #rowColumn: Int32Array
  readonly #patternStart: Int32Array
  readonly #patternColumn: Int32Array
  readonly #columnStart: Int32Array
  readonly #columnRow: Int32Array
  readonly #filled: Int32Array
  readonly #values: Float64Array
  readonly #entries: Float64Array
  readonly #diagonal: Float64Array
  readonly #work: Float64Array
  readonly #solution: Float64Array

  constructor({ places, from, to }: Links) {
    const unknowns = places - 1
    this.#unknowns = unknowns
    this.#rank = ranks({ places, from, to })
    this.#from = from.map((place) => this.#rank[place] as number)
    this.#to = to.map((place) => this.#rank[place] as number)
    const rows = lowerRows({ unknowns, from: this.#from, to: this.#to })
    this.#rowStart = rows.start
    this.#rowColumn = rows.column
    this.#entry = rows.entry
    const pattern = factorPattern(rows.start, rows.column)
    this.#patternStart = pattern.start
    this.#patternColumn = pattern.column
    const columns = transposed(pattern)
    this.#columnStart = columns.start
    this.#columnRow = columns.row
    this.work = workOf(columns.start)
    this.#filled = new Int32Array(unknowns)
    this.#values = new Float64Array(this.#columnRow.length)
    this.#entries = new Float64Array(this.#rowColumn.length)
    this.#diagonal = new Float64Array(unknowns)
    this.#work = new Float64Array(unknowns)
    this.#solution = new Float64Array(unknowns)
  }

  /** Splits the matrix for the conductances of the links, all above 0. */
  factorise(conductance: Float64Array): void {
    this.#gather(conductance)
    const work = this.#work
    const values = this.#values
    const filled = this.#filled
    const diagonal = this.#diagonal
    for (let column = 0; column < this.#unknowns; column += 1) filled[column] = this.#columnStart[column] as number
    for (let row = 0; row < this.#unknowns; row += 1) {
      const lastEntry = this.#rowStart[row + 1] as number
      for (let at = this.#rowStart[row] as number; at < lastEntry; at += 1) {
        work[this.#rowColumn[at] as number] = this.#entries[at] as number
      }
      const whole = diagonal[row] as number
      let pivot = whole
      const last = this.#patternStart[row + 1] as number
      for (let at = this.#patternStart[row] as number; at < last; at += 1) {
        const column = this.#patternColumn[at] as number
        const value = work[column] as number
        work[column] = 0
        const end = filled[column] as number
        for (let p = this.#columnStart[column] as number; p < end; p += 1) {
          const target = this.#columnRow[p] as number
          work[target] = (work[target] as number) - (values[p] as number) * value
        }
        const factor = value / (diagonal[column] as number)
        pivot -= factor * value
        values[end] = factor
        filled[column] = end + 1
      }
      // what is left of a pivot after cancelling holds no digits below this share
      diagonal[row] = Math.max(pivot, whole * LEAST_PIVOT)
    }
  }

  #gather(conductance: Float64Array): void {
    this.#entries.fill(0)
    this.#diagonal.fill(0)
    for (let link = 0; link < conductance.length; link += 1) {
      const value = conductance[link] as number
      const from = this.#from[link] as number
      const to = this.#to[link] as number
      if (from === to) continue
      if (from >= 0) this.#diagonal[from] = (this.#diagonal[from] as number) + value
      if (to >= 0) this.#diagonal[to] = (this.#diagonal[to] as number) + value
      const entry = this.#entry[link] as number
      if (entry >= 0) this.#entries[entry] = (this.#entries[entry] as number) - value
    }
  }

  /** Heads (by place) for inflows (by place); the held place's inflow does not matter. */
  solve(inflow: Float64Array, head: Float64Array): void {
    const x = this.#solution
    const values = this.#values
    const rows = this.#columnRow
    for (let place = 1; place < inflow.length; place += 1) x[this.#rank[place] as number] = inflow[place] as number
    for (let column = 0; column < this.#unknowns; column += 1) {
      const value = x[column] as number
      const last = this.#columnStart[column + 1] as number
      for (let p = this.#columnStart[column] as number; p < last; p += 1) {
        const row = rows[p] as number
        x[row] = (x[row] as number) - (values[p] as number) * value
      }
    }
    for (let column = this.#unknowns - 1; column >= 0; column -= 1) {
      let value = (x[column] as number) / (this.#diagonal[column] as number)
      const last = this.#columnStart[column + 1] as number
      for (let p = this.#columnStart[column] as number; p < last; p += 1) {
        value -= (values[p] as number) * (x[rows[p] as number] as number)
      }
      x[column] = value
    }
    head[0] = 0
    for (let place = 1; place < head.length; place += 1) head[place] = x[this.#rank[place] as number] as number
  }
}

const LEAST_PIVOT = 1e-15

/** The turn of each place in the elimination; −1 for the held one. */
function ranks({ places, from, to }: Links): Int32Array {
  const free = from.map((_, link) => ((from[link] as number) > 0 && (to[link] as number) > 0 ? 1 : 0))
  const pick = (ends: Int32Array) => ends.filter((_, link) => free[link] === 1).map((place) => place - 1)
  const order = eliminationOrder({ count: places - 1, a: pick(from), b: pick(to) })
  const rank = new Int32Array(places).fill(-1)
  for (let turn = 0; turn < order.length; turn += 1) rank[(order[turn] as number) + 1] = turn
  return rank
}

/** The matrix below its diagonal, by rows, with the place in it of each link. */
function lowerRows({ unknowns, from, to }: { unknowns: number; from: Int32Array; to: Int32Array }) {
  const rows: Map<number, number>[] = Array.from({ length: unknowns }, () => new Map())
  const ends = (link: number) => {
    const [a, b] = [from[link] as number, to[link] as number]
    return { row: Math.max(a, b), column: Math.min(a, b) }
  }
  for (let link = 0; link < from.length; link += 1) {
    const { row, column } = ends(link)
    if (column >= 0 && row !== column) rows[row]?.set(column, 0)
  }
  const start = new Int32Array(unknowns + 1)
  const columns: number[] = []
  for (let row = 0; row < unknowns; row += 1) {
    for (const column of rows[row]?.keys() ?? []) {
      rows[row]?.set(column, columns.length)
      columns.push(column)
    }
    start[row + 1] = columns.length
  }
  const entry = from.map((_, link) => {
    const { row, column } = ends(link)
    return rows[row]?.get(column) ?? -1
  })
  return { start, column: Int32Array.from(columns), entry }
}

/** Columns of each row of L, rising: from every entry of the row up the tree of first followers. */
function factorPattern(start: Int32Array, column: Int32Array): { start: Int32Array; column: Int32Array } {
  const unknowns = start.length - 1
  const parent = new Int32Array(unknowns).fill(-1)
  const seen = new Int32Array(unknowns).fill(-1)
  const patternStart = new Int32Array(unknowns + 1)
  const columns: number[] = []
  for (let row = 0; row < unknowns; row += 1) {
    seen[row] = row
    const found: number[] = []
    for (let at = start[row] as number; at < (start[row + 1] as number); at += 1) {
      for (let each = column[at] as number; seen[each] !== row; each = parent[each] as number) {
        if (parent[each] === -1) parent[each] = row
        seen[each] = row
        found.push(each)
      }
    }
    found.sort((a, b) => a - b)
    for (const each of found) columns.push(each)
    patternStart[row + 1] = columns.length
  }
  return { start: patternStart, column: Int32Array.from(columns) }
}

function workOf(columnStart: Int32Array): number {
  let work = 0
  for (let column = 1; column < columnStart.length; column += 1) {
    const height = (columnStart[column] as number) - (columnStart[column - 1] as number)
    work += (height * (height + 3)) / 2
  }
  return work
}

/** Rows of each column, rising. */
function transposed({ start, column }: { start: Int32Array; column: Int32Array }) {
  const unknowns = start.length - 1
  const columnStart = new Int32Array(unknowns + 1)
  for (const each of column) columnStart[each + 1] = (columnStart[each + 1] as number) + 1
  for (let at = 0; at < unknowns; at += 1)
    columnStart[at + 1] = (columnStart[at + 1] as number) + (columnStart[at] as number)
  const next = columnStart.slice()
  const row = new Int32Array(column.length)
  for (let each = 0; each < unknowns; each += 1) {
    for (let at = start[each] as number; at < (start[each + 1] as number); at += 1) {
      const place = next[column[at] as number] as number
      row[place] = each
      next[column[at] as number] = place + 1
    }
  }
  return { start: columnStart, row }
}
