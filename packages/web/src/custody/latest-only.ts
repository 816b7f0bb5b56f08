/** Of works that end in any order, tells the latest: what an earlier one gives, or one that was dropped, comes too late. */
export class LatestOnly {
  #count = 0

  /** Begins one; gives whether it is still the latest. */
  begin(): () => boolean {
    const own = (this.#count += 1)
    return () => own === this.#count
  }

  drop(): void {
    this.#count += 1
  }
}
