/** Which things hang together, as they are joined one pair after another. */
export class JoinedSets {
  readonly #leader = new Map<string, string>()

  leaderOf(id: string): string {
    let leader = id
    for (let next = this.#leader.get(leader); next !== undefined; next = this.#leader.get(leader)) leader = next
    for (let at = id; at !== leader; ) {
      const next = this.#leader.get(at) ?? leader
      this.#leader.set(at, leader)
      at = next
    }
    return leader
  }

  /** True where the two were apart until now. */
  join(a: string, b: string): boolean {
    const [one, two] = [this.leaderOf(a), this.leaderOf(b)]
    if (one !== two) this.#leader.set(one, two)
    return one !== two
  }
}
