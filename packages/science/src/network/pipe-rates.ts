/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '../water/liquid-water.ts'
import type { Network, NetworkPipe } from './network.ts'

const LITRES_PER_M3 = 1000
const SECONDS_PER_MINUTE = 60
const MM_PER_M = 1000

/** What a pipe does to its water, by index of the pipe. */
export interface PipeRates {
  volumeL: Float64Array
  ambientC: Float64Array
  /** Cooling of moving and of standing water, per minute, at a difference of `lossAtK` from the air. */
  movingPerMinute: Float64Array
  standingPerMinute: Float64Array
  lossAtK: Float64Array
  lossPower: Float64Array
  /** J in a litre of this pipe's water for each K. */
  heatJPerLK: Float64Array
}

/**
 * The rates of cooling of every pipe (per minute), its volume (L) and the heat its water holds (J/(L K)).
 * Wanted because a day is simulated from them alone.
 *
 * λ = U / (ρ cp A) while water moves; U / (ρ cp A + C) while it stands, C the heat of the wall.
 *
 * @param network pipes in mm, m, W/(m K), J/(m K)
 * @param waterC temperature each pipe's water is expected to have, °C; sets ρ cp, for standing water half-way from it to the air
 * @source plug-flow-heat-balance
 * @source iapws-sr6-08
 */
export function pipeRates({ pipes }: Network, waterC: Float64Array): PipeRates {
  const column = (): Float64Array => new Float64Array(pipes.length)
  const rates: PipeRates = {
    volumeL: column(),
    ambientC: column(),
    movingPerMinute: column(),
    standingPerMinute: column(),
    lossAtK: column(),
    lossPower: column(),
    heatJPerLK: column(),
  }
  for (const [index, pipe] of pipes.entries()) {
    const heatJPerM3K = heatJPerM3KAt(waterC[index]!)
    const movingJPerMK = heatJPerM3K * boreAreaM2(pipe)
    // what stands cools from there to the air
    const standingJPerMK = heatJPerM3KAt((waterC[index]! + pipe.ambientC) / 2) * boreAreaM2(pipe)
    rates.volumeL[index] = pipeVolumeL(pipe)
    rates.ambientC[index] = pipe.ambientC
    rates.movingPerMinute[index] = (SECONDS_PER_MINUTE * pipe.lossWPerMK) / movingJPerMK
    rates.standingPerMinute[index] = (SECONDS_PER_MINUTE * pipe.lossWPerMK) / (standingJPerMK + pipe.wallHeatJPerMK)
    rates.lossAtK[index] = pipe.lossAtK
    rates.lossPower[index] = pipe.lossPower
    rates.heatJPerLK[index] = heatJPerM3K / LITRES_PER_M3
  }
  return rates
}

const heatJPerM3KAt = (temperatureC: number): number =>
  waterDensityKgPerM3(temperatureC) * waterHeatCapacityJPerKgK(temperatureC)

const boreAreaM2 = ({ boreMm }: NetworkPipe): number => (Math.PI / 4) * (boreMm / MM_PER_M) ** 2

/**
 * What a pipe holds (L).
 *
 * π/4 d² L.
 *
 * @param pipe bore (mm) and length (m)
 * @source none: it is the volume of a cylinder
 */
export const pipeVolumeL = (pipe: NetworkPipe): number => boreAreaM2(pipe) * pipe.lengthM * LITRES_PER_M3
