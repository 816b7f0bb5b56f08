/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import decay from '@rillmark/reference/chlorine/decay.json' with { type: 'json' }
import { filmTransport } from '../chlorine/film-transport.ts'
import { filmRegime, sherwoodOf } from '../chlorine/sherwood.ts'
import { wallLossPerHour } from '../chlorine/wall-loss.ts'
import type { Chemistry, NetworkPipe } from './network.ts'
import { OctaveTable } from './octave-table.ts'

const MINUTES_PER_HOUR = 60
const S_PER_HOUR = 3600
const MM_PER_M = 1000
const M3_PER_S_PER_L_PER_MIN = 1 / 60_000
/** A flow that has changed by less keeps its film. */
const SAME_FLOW = 0.02

/** Just laminar, so that all of the entry's length is in the Schmidt number. */
const laminar = (entry: number) => ({ reynolds: 1, schmidt: entry, boreOverLength: 1, standingSherwood: 0 })

/** Sherwood number of laminar flow by bore · Re · Sc / length, and of turbulent flow by Re where Sc is 1. */
const LAMINAR = new OctaveTable((entry) => sherwoodOf(laminar(entry)), { least: 2 ** -6, octaves: 26 })
const TURBULENT = new OctaveTable((reynolds) => sherwoodOf({ ...laminar(1), reynolds, schmidt: 1 }), {
  least: decay.figures.turbulentAbove.value,
  octaves: 10,
})

/** A pipe's row, side by side in memory. */
const MET = 0
const FLOW = 1
const PER_MINUTE = 2
/** Reynolds number for each L/min; bore · Sc / length; ∛Sc; film (m/h) for each unit of the Sherwood number; bore (m). */
const REYNOLDS = 3
const ENTRY = 4
const ROOT = 5
const FILM = 6
const BORE_M = 7
const COLUMNS = 8

/**
 * How fast the walls take the residual: of standing water a rate for each pipe, of moving water a clock that runs with the flow.
 * The film is worked out for the temperature that each pipe's water is expected to have.
 */
export class WallExposure {
  readonly standingPerHour: Float64Array
  readonly #wallMPerHour: number
  readonly #rows: Float64Array

  /** @param of.waterC temperature each pipe's water is expected to have, °C */
  constructor(of: { pipes: readonly NetworkPipe[]; chemistry: Chemistry; waterC: Float64Array }) {
    const { wallMPerHour, standingSherwood } = of.chemistry
    this.#wallMPerHour = wallMPerHour
    this.standingPerHour = new Float64Array(of.pipes.length)
    this.#rows = new Float64Array(of.pipes.length * COLUMNS)
    for (const [index, pipe] of of.pipes.entries()) {
      this.#prepare(pipe, { row: index * COLUMNS, temperatureC: of.waterC[index]! })
      this.standingPerHour[index] = this.#perHour(index * COLUMNS, standingSherwood)
    }
  }

  /** Decay times met by water that moves in a pipe, since the start; a difference of two readings is what a parcel met. */
  metIn(pipe: number): number {
    return this.#rows[pipe * COLUMNS + MET]!
  }

  /** Water moved in a pipe for so many decay times. */
  meet(pipe: number, times: number): void {
    this.#rows[pipe * COLUMNS + MET]! += times
  }

  /** Decay times met in a minute at a flow (L/min). */
  perMinute(pipe: number, flowLPerMin: number): number {
    if (this.#wallMPerHour === 0) return 0
    const rows = this.#rows
    const row = pipe * COLUMNS
    const moved = flowLPerMin - rows[row + FLOW]!
    if (moved > SAME_FLOW * flowLPerMin || -moved > SAME_FLOW * flowLPerMin) {
      rows[row + FLOW] = flowLPerMin
      this.#follow(row)
    }
    return rows[row + PER_MINUTE]!
  }

  #follow(row: number): void {
    const rows = this.#rows
    const reynolds = rows[row + FLOW]! * rows[row + REYNOLDS]!
    const regime = filmRegime(reynolds)
    const sherwood =
      regime === 'turbulent' ? TURBULENT.at(reynolds) * rows[row + ROOT]! : LAMINAR.at(reynolds * rows[row + ENTRY]!)
    rows[row + PER_MINUTE] =
      regime === 'standing'
        ? this.standingPerHour[row / COLUMNS]! / MINUTES_PER_HOUR
        : this.#perHour(row, sherwood) / MINUTES_PER_HOUR
  }

  #prepare({ boreMm, lengthM }: NetworkPipe, { row, temperatureC }: { row: number; temperatureC: number }): void {
    const boreM = boreMm / MM_PER_M
    const { diffusivityM2PerS, kinematicM2PerS } = filmTransport(temperatureC)
    const schmidt = kinematicM2PerS / diffusivityM2PerS
    const rows = this.#rows
    rows[row + REYNOLDS] = (4 * M3_PER_S_PER_L_PER_MIN) / (Math.PI * boreM * kinematicM2PerS)
    rows[row + ENTRY] = lengthM > 0 ? (boreM / lengthM) * schmidt : 0
    rows[row + ROOT] = Math.cbrt(schmidt)
    rows[row + FILM] = (diffusivityM2PerS / boreM) * S_PER_HOUR
    rows[row + BORE_M] = boreM
  }

  /** First-order rate at the wall, through the film. */
  #perHour(row: number, sherwood: number): number {
    if (this.#wallMPerHour === 0) return 0
    const filmMPerHour = sherwood * this.#rows[row + FILM]!
    return wallLossPerHour({ boreM: this.#rows[row + BORE_M]!, filmMPerHour, wallMPerHour: this.#wallMPerHour })
  }
}
