/** Runs so many pieces of work at once and lets the others wait their turn. */
export class FewAtOnce {
  readonly #most: number
  readonly #waiting: (() => void)[] = []
  #running = 0

  constructor(most: number) {
    this.#most = most
  }

  async run<T>(work: () => Promise<T>): Promise<T> {
    if (this.#running === this.#most) await new Promise<void>((go) => this.#waiting.push(go))
    else this.#running += 1
    try {
      return await work()
    } finally {
      const next = this.#waiting.shift()
      if (next === undefined) this.#running -= 1
      else next()
    }
  }
}
