/** Pipes as pairs of places; `skip` marks those that are left out. */
export interface Graph {
  places: number
  from: Int32Array
  to: Int32Array
  skip: Uint8Array
}

/** Pipes by place: those of place p are `pipes[start[p]]` to before `pipes[start[p + 1]]`; a pipe from a place to itself comes once. */
export interface Incidence {
  start: Int32Array
  pipes: Int32Array
}

/**
 * Which pipes meet at each place.
 *
 * @source none: it only sorts a list
 */
export function incidenceOf({ places, from, to, skip }: Graph): Incidence {
  const start = new Int32Array(places + 1)
  const each = (act: (place: number, pipe: number) => void) => {
    for (let pipe = 0; pipe < from.length; pipe += 1) {
      if (skip[pipe] === 1) continue
      const [a, b] = [from[pipe] as number, to[pipe] as number]
      act(a, pipe)
      if (a !== b) act(b, pipe)
    }
  }
  each((place) => (start[place + 1] = (start[place + 1] as number) + 1))
  for (let place = 0; place < places; place += 1)
    start[place + 1] = (start[place + 1] as number) + (start[place] as number)
  const next = start.slice()
  const pipes = new Int32Array(start[places] as number)
  each((place, pipe) => {
    pipes[next[place] as number] = pipe
    next[place] = (next[place] as number) + 1
  })
  return { start, pipes }
}

/** A graph taken apart into blocks: sets of pipes within which every pipe lies on a ring, or single pipes that lie on none. */
export interface Blocks {
  /** Pipes of each block; block b has `pipes[start[b]]` to before `pipes[start[b + 1]]`. */
  start: Int32Array
  pipes: Int32Array
  /** The place at which each block hangs on what is nearer the root. */
  top: Int32Array
  /** The block in which a place hangs, −1 at roots; each place but a root hangs in exactly one. */
  hangsIn: Int32Array
  /** Places, each after the top of the block it hangs in. */
  order: Int32Array
}

/**
 * Takes a graph apart at the places and pipes whose loss would part it (depth first, Hopcroft and Tarjan 1973).
 * Wanted because flows in one block depend on the others only through the sum of what is drawn beyond.
 *
 * @param graph places and pipes; place 0 is taken as the first root
 * @source common-practice
 */
export function takeApart(graph: Graph): Blocks {
  return new Search(graph).run()
}

class Search {
  readonly #graph: Graph
  readonly #at: Incidence
  readonly #found: Int32Array
  readonly #low: Int32Array
  readonly #next: Int32Array
  readonly #used: Uint8Array
  readonly #order: Int32Array
  #count = 0
  readonly #path: number[] = []
  readonly #pathPipe: number[] = []
  readonly #open: number[] = []
  readonly #start: number[] = [0]
  readonly #pipes: number[] = []
  readonly #top: number[] = []
  readonly #hangsIn: Int32Array

  constructor(graph: Graph) {
    const { places, from } = graph
    this.#graph = graph
    this.#at = incidenceOf(graph)
    this.#found = new Int32Array(places).fill(-1)
    this.#low = new Int32Array(places)
    this.#next = this.#at.start.slice(0, places)
    this.#used = new Uint8Array(from.length)
    this.#order = new Int32Array(places)
    this.#hangsIn = new Int32Array(places).fill(-1)
  }

  run(): Blocks {
    for (let root = 0; root < this.#graph.places; root += 1) if (this.#found[root] === -1) this.#explore(root)
    return {
      start: Int32Array.from(this.#start),
      pipes: Int32Array.from(this.#pipes),
      top: Int32Array.from(this.#top),
      hangsIn: this.#hangsIn,
      order: this.#order,
    }
  }

  #enter(place: number, pipe: number): void {
    this.#found[place] = this.#count
    this.#low[place] = this.#count
    this.#order[this.#count] = place
    this.#count += 1
    this.#path.push(place)
    this.#pathPipe.push(pipe)
  }

  #explore(root: number): void {
    this.#enter(root, -1)
    while (this.#path.length > 0) {
      const place = this.#path.at(-1) as number
      const next = this.#next[place] as number
      if (next === (this.#at.start[place + 1] as number)) this.#leave(place)
      else {
        this.#next[place] = next + 1
        this.#follow(place, this.#at.pipes[next] as number)
      }
    }
  }

  #follow(place: number, pipe: number): void {
    if (this.#used[pipe] === 1) return
    this.#used[pipe] = 1
    const from = this.#graph.from[pipe] as number
    const other = from === place ? (this.#graph.to[pipe] as number) : from
    this.#open.push(pipe)
    if (other === place) this.#close(place, pipe)
    else if (this.#found[other] === -1) this.#enter(other, pipe)
    else this.#low[place] = Math.min(this.#low[place] as number, this.#found[other] as number)
  }

  #leave(place: number): void {
    this.#path.pop()
    const pipe = this.#pathPipe.pop() as number
    const parent = this.#path.at(-1)
    if (parent === undefined) return
    this.#low[parent] = Math.min(this.#low[parent] as number, this.#low[place] as number)
    if ((this.#low[place] as number) >= (this.#found[parent] as number)) this.#close(parent, pipe)
  }

  /** Everything opened since the pipe makes a block that hangs at the place. */
  #close(top: number, until: number): void {
    const block = this.#top.length
    let pipe = -1
    while (pipe !== until) {
      pipe = this.#open.pop() as number
      this.#pipes.push(pipe)
      const [a, b] = [this.#graph.from[pipe] as number, this.#graph.to[pipe] as number]
      if (a !== top) this.#hangsIn[a] = block
      if (b !== top) this.#hangsIn[b] = block
    }
    this.#top.push(top)
    this.#start.push(this.#pipes.length)
  }
}
