/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { filmTransport } from '../chlorine/film-transport.ts'
import { sherwoodOf } from '../chlorine/sherwood.ts'
import { wallLossPerHour } from '../chlorine/wall-loss.ts'
import type { Chemistry, NetworkPipe } from './network.ts'

const MINUTES_PER_HOUR = 60
const S_PER_HOUR = 3600
const MM_PER_M = 1000
const M3_PER_S_PER_L_PER_MIN = 1 / 60_000
/** A flow that has changed by less keeps its film. */
const SAME_FLOW = 0.02

/**
 * How fast the walls take the residual: of standing water a rate for each pipe, of moving water a clock that runs with the flow.
 * The film is worked out for the temperature that each pipe's water is expected to have.
 */
export class WallExposure {
  /** Decay times met by water that moves in a pipe, since the start; a difference of two readings is what a parcel met. */
  readonly met: Float64Array
  readonly standingPerHour: Float64Array
  readonly #wallMPerHour: number
  readonly #standingSherwood: number
  readonly #boreM: Float64Array
  readonly #boreOverLength: Float64Array
  readonly #schmidt: Float64Array
  /** Reynolds number for each L/min, and film (m/h) for each unit of the Sherwood number. */
  readonly #reynolds: Float64Array
  readonly #film: Float64Array
  readonly #flow: Float64Array
  readonly #perMinute: Float64Array

  /** @param of.waterC temperature each pipe's water is expected to have, °C */
  constructor(of: { pipes: readonly NetworkPipe[]; chemistry: Chemistry; waterC: Float64Array }) {
    const column = (): Float64Array => new Float64Array(of.pipes.length)
    this.#wallMPerHour = of.chemistry.wallMPerHour
    this.#standingSherwood = of.chemistry.standingSherwood
    this.met = column()
    this.standingPerHour = column()
    this.#boreM = column()
    this.#boreOverLength = column()
    this.#schmidt = column()
    this.#reynolds = column()
    this.#film = column()
    this.#flow = column()
    this.#perMinute = column()
    for (const [index, pipe] of of.pipes.entries()) this.#prepare(pipe, { index, temperatureC: of.waterC[index]! })
  }

  /** Decay times met in a minute at a flow (L/min). */
  perMinute(pipe: number, flowLPerMin: number): number {
    if (this.#wallMPerHour === 0) return 0
    const moved = flowLPerMin - this.#flow[pipe]!
    if (moved > SAME_FLOW * flowLPerMin || -moved > SAME_FLOW * flowLPerMin) {
      this.#flow[pipe] = flowLPerMin
      this.#perMinute[pipe] = this.#perHour(pipe, flowLPerMin) / MINUTES_PER_HOUR
    }
    return this.#perMinute[pipe]!
  }

  #prepare({ boreMm, lengthM }: NetworkPipe, { index, temperatureC }: { index: number; temperatureC: number }): void {
    const boreM = boreMm / MM_PER_M
    const { diffusivityM2PerS, kinematicM2PerS } = filmTransport(temperatureC)
    this.#boreM[index] = boreM
    this.#boreOverLength[index] = lengthM > 0 ? boreM / lengthM : 0
    this.#schmidt[index] = kinematicM2PerS / diffusivityM2PerS
    this.#reynolds[index] = (4 * M3_PER_S_PER_L_PER_MIN) / (Math.PI * boreM * kinematicM2PerS)
    this.#film[index] = (diffusivityM2PerS / boreM) * S_PER_HOUR
    this.standingPerHour[index] = this.#perHour(index, 0)
  }

  /** First-order rate at the wall, through the film. */
  #perHour(pipe: number, flowLPerMin: number): number {
    if (this.#wallMPerHour === 0) return 0
    const sherwood = sherwoodOf({
      reynolds: flowLPerMin * this.#reynolds[pipe]!,
      schmidt: this.#schmidt[pipe]!,
      boreOverLength: this.#boreOverLength[pipe]!,
      standingSherwood: this.#standingSherwood,
    })
    const filmMPerHour = sherwood * this.#film[pipe]!
    return wallLossPerHour({ boreM: this.#boreM[pipe]!, filmMPerHour, wallMPerHour: this.#wallMPerHour })
  }
}
