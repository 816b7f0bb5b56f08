/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { wallFilm } from '../chlorine/wall-film.ts'
import type { Chemistry, NetworkPipe } from './network.ts'
import { makeWallRate, type WallRate } from './wall-rate.ts'

const MINUTES_PER_HOUR = 60
const MM_PER_M = 1000
/** A flow that has changed less keeps its film. */
const SAME_FLOW = 0.01

/** How fast the walls take the residual: of standing water a rate for each pipe, of moving water a clock that runs with the flow. */
export class WallExposure {
  /** Decay times met by water that moves in a pipe, since the start; a difference of two readings is what a parcel met. */
  readonly met: Float64Array
  readonly standingPerHour: Float64Array
  readonly #rates: readonly WallRate[]
  readonly #waterC: Float64Array
  readonly #flow: Float64Array
  readonly #perMinute: Float64Array

  /** @param of.waterC temperature each pipe's water is expected to have, °C; the film is worked out for it */
  constructor(of: { pipes: readonly NetworkPipe[]; chemistry: Chemistry; waterC: Float64Array }) {
    const { pipes, chemistry, waterC } = of
    this.met = new Float64Array(pipes.length)
    this.#waterC = waterC
    this.#flow = new Float64Array(pipes.length)
    this.#perMinute = new Float64Array(pipes.length)
    this.standingPerHour = new Float64Array(pipes.length)
    this.#rates = chemistry.wallMPerHour === 0 ? [] : pipes.map((pipe) => makeWallRate(pipe, chemistry))
    if (chemistry.wallMPerHour === 0) return
    for (const [index, pipe] of pipes.entries())
      this.standingPerHour[index] = standingPerHour(pipe, { chemistry, temperatureC: waterC[index]! })
  }

  /** Decay times met in a minute at a flow (L/min). */
  perMinute(pipe: number, flowLPerMin: number): number {
    const rate = this.#rates[pipe]
    if (rate === undefined) return 0
    if (Math.abs(flowLPerMin - this.#flow[pipe]!) > SAME_FLOW * flowLPerMin) {
      this.#flow[pipe] = flowLPerMin
      rate.setFlow(flowLPerMin)
      this.#perMinute[pipe] = rate.perHour(this.#waterC[pipe]!) / MINUTES_PER_HOUR
    }
    return this.#perMinute[pipe]!
  }
}

function standingPerHour(
  { boreMm }: NetworkPipe,
  { chemistry, temperatureC }: { chemistry: Chemistry; temperatureC: number },
): number {
  const { standingSherwood, wallMPerHour } = chemistry
  const { filmMPerHour } = wallFilm({ boreMm, temperatureC, flowLPerMin: 0, standingSherwood })
  return ((4 * MM_PER_M) / boreMm) * (filmMPerHour / (1 + filmMPerHour / wallMPerHour))
}
