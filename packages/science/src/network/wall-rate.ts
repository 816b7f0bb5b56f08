import { filmTransport } from '../chlorine/film-transport.ts'
import { sherwoodOf } from '../chlorine/sherwood.ts'
import { wallLossPerHour } from '../chlorine/wall-loss.ts'
import { tabled, tabulated } from './kinetics.ts'
import type { Chemistry } from './network.ts'

const MM_PER_M = 1000
const S_PER_HOUR = 3600
const M3_PER_S_PER_L_PER_MIN = 1 / 60_000

/** How fast the wall of one pipe takes the residual of the water in it. */
export interface WallRate {
  /** Sets the flow (L/min, either direction; 0 stands) for the calls that follow. */
  setFlow: (flowLPerMin: number) => void
  /** First-order rate at the wall for water of a temperature. Standing water costs next to nothing. */
  perHour: (temperatureC: number) => number
}

const TRANSPORT = {
  diffusivityM2PerS: tabulated((temperatureC) => filmTransport(temperatureC).diffusivityM2PerS),
  kinematicM2PerS: tabulated((temperatureC) => filmTransport(temperatureC).kinematicM2PerS),
}

/**
 * The rate at which one pipe's wall takes residual (per hour), ready to be asked many times.
 * Wanted because in a pipe of a building the wall, not the water, takes most of it, and the film sets how fast.
 *
 * k = (4/d) k_f / (1 + k_f / k_w), k_f = Sh D / d, as `wallFilm`; D and ν are read from tables over temperature.
 *
 * Special cases: a wall that takes nothing gives 0. Below a Reynolds number of 1 the water stands. In laminar flow a pipe
 * given in pieces loses a little more than one of the whole length, for each piece begins a film.
 *
 * @param pipe bore (mm) and length (m), above 0
 * @param chemistry wall coefficient (m/h), Sherwood number of standing water
 * @throws RangeError when the bore or the wall coefficient is out of range
 * @source epanet-2-2
 * @example
 * makeWallRate({ boreMm: 13, lengthM: 5 }, { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 }).perHour(20) // => 0
 */
export function makeWallRate(pipe: { boreMm: number; lengthM: number }, chemistry: Chemistry): WallRate {
  const { wallMPerHour, standingSherwood } = chemistry
  const boreM = pipe.boreMm / MM_PER_M
  if (!(boreM > 0 && wallMPerHour >= 0))
    throw new RangeError(
      `Cannot tell what a wall takes because bore and coefficient must be above and from 0: got ${pipe.boreMm} mm, ${wallMPerHour} m/h`,
    )
  const boreOverLength = pipe.lengthM > 0 ? boreM / pipe.lengthM : 0
  const reynoldsTimesNu = (4 * M3_PER_S_PER_L_PER_MIN) / (Math.PI * boreM)
  const rateOf = (sherwood: number, diffusivityM2PerS: number) => {
    const film = ((sherwood * diffusivityM2PerS) / boreM) * S_PER_HOUR
    return wallLossPerHour({ boreM, filmMPerHour: film, wallMPerHour })
  }
  let moving = 0
  const perHour = (temperatureC: number) => {
    if (wallMPerHour === 0) return 0
    const diffusivity = tabled(TRANSPORT.diffusivityM2PerS, temperatureC)
    if (moving === 0) return rateOf(standingSherwood, diffusivity)
    const kinematic = tabled(TRANSPORT.kinematicM2PerS, temperatureC)
    const [reynolds, schmidt] = [moving / kinematic, kinematic / diffusivity]
    return rateOf(sherwoodOf({ reynolds, schmidt, boreOverLength, standingSherwood }), diffusivity)
  }
  const setFlow = (flowLPerMin: number) => {
    moving = Math.abs(flowLPerMin) * reynoldsTimesNu
  }
  return { setFlow, perHour }
}
