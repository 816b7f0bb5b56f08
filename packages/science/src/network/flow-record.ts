/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Spread } from './day-result.ts'

const MINUTES_PER_DAY = 1440

/** The flows of a day: a pipe is written down only when its flow changes. */
export class FlowRecord {
  readonly #last: Float64Array
  readonly #since: Float64Array
  readonly #sums: Float64Array
  readonly #least: Float64Array
  readonly #greatest: Float64Array
  /** Mean flow in each span of the day: index pipe · slots + slot; empty where no curves are wanted. */
  readonly curve: Float32Array
  readonly #slots: number
  #began = 0

  constructor(pipes: number, slots = 0) {
    this.#slots = slots
    this.curve = new Float32Array(pipes * slots)
    this.#last = new Float64Array(pipes)
    this.#since = new Float64Array(pipes)
    this.#sums = new Float64Array(pipes)
    this.#least = new Float64Array(pipes)
    this.#greatest = new Float64Array(pipes)
  }

  /** Begins a new day at a moment (minutes). */
  begin(moment: number): void {
    this.#began = moment
    this.#since.fill(moment)
    this.#sums.fill(0)
    this.#least.fill(Number.POSITIVE_INFINITY)
    this.#greatest.fill(Number.NEGATIVE_INFINITY)
    this.curve.fill(0)
  }

  /** Notes new flows from a moment on; only the changed are looked at. */
  add(flows: Float64Array, { changed, moment }: { changed: Int32Array; moment: number }): void {
    for (const pipe of changed) {
      if (flows[pipe] !== this.#last[pipe]) {
        this.#write(pipe, moment)
        this.#last[pipe] = flows[pipe]!
      }
    }
  }

  /** Writes down what still runs; the means are then of the span up to this moment. */
  close(moment: number): void {
    for (let pipe = 0; pipe < this.#last.length; pipe++) this.#write(pipe, moment)
  }

  spreadOf(pipe: number, moment: number): Spread {
    return {
      mean: this.#sums[pipe]! / (moment - this.#began),
      min: this.#least[pipe]!,
      max: this.#greatest[pipe]!,
    }
  }

  #write(pipe: number, moment: number): void {
    const since = this.#since[pipe]!
    const minutes = moment - since
    this.#since[pipe] = moment
    if (minutes <= 0) return
    const flow = this.#last[pipe]!
    this.#sums[pipe]! += flow * minutes
    if (flow < this.#least[pipe]!) this.#least[pipe] = flow
    if (flow > this.#greatest[pipe]!) this.#greatest[pipe] = flow
    if (this.#slots > 0 && flow !== 0) this.#draw({ pipe, flow, from: since - this.#began, to: moment - this.#began })
  }

  #draw({ pipe, flow, from, to }: { pipe: number; flow: number; from: number; to: number }): void {
    const span = MINUTES_PER_DAY / this.#slots
    for (let slot = Math.floor(from / span); slot * span < to && slot < this.#slots; slot++) {
      const within = Math.min(to, (slot + 1) * span) - Math.max(from, slot * span)
      this.curve[pipe * this.#slots + slot]! += (flow * within) / span
    }
  }
}
