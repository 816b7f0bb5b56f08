/** Runs work of one name one after another, of different names side by side. */
export class Queues {
  readonly #tails = new Map<string, Promise<unknown>>()

  run<T>(name: string, work: () => Promise<T>): Promise<T> {
    const turn = (this.#tails.get(name) ?? Promise.resolve()).then(work)
    const tail = turn.catch(() => undefined)
    this.#tails.set(name, tail)
    void tail.then(() => this.#tails.get(name) === tail && this.#tails.delete(name))
    return turn
  }
}
