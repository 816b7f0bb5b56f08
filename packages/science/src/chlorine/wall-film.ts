import { filmTransport } from './film-transport.ts'
import { type FilmRegime, filmRegime, sherwoodOf } from './sherwood.ts'

export interface WallFilmInput {
  boreMm: number
  temperatureC: number
  flowLPerMin: number
  lengthM?: number | undefined
  standingSherwood: number
}

export interface WallFilm {
  filmMPerHour: number
  sherwood: number
  reynolds: number
  regime: FilmRegime
}

const MM_PER_M = 1000
const S_PER_HOUR = 3600
const M3_PER_S = 1 / 60_000

/**
 * How fast chlorine reaches the wall of a pipe (m/h), and how the water moves.
 * Wanted because in a small pipe this, and not the wall, limits the loss: leaving it out overstates decay many times over.
 *
 * k = Sh D / d; laminar Sh = 3.65 + 0.0668 y / (1 + 0.04 y^(2/3)), y = (d/L) Re Sc; turbulent Sh = 0.0149 Re^0.88 Sc^(1/3);
 * D grows with T/μ from 1.2077e-9 m²/s at 20 °C.
 *
 * Special cases: below a Reynolds number of 1 the water stands and Sh is as given. Laminar without a length: 3.65.
 *
 * @param input bore (mm), temperature 0 to 100 °C, flow (L/min, at least 0), length (m), Sherwood number of standing water
 * @source epanet-2-2
 * @source stokes-einstein
 * @example
 * wallFilm({ boreMm: 13, temperatureC: 20, flowLPerMin: 0, standingSherwood: 3.65 }).regime // => "standing"
 */
export function wallFilm({ boreMm, temperatureC, flowLPerMin, lengthM, standingSherwood }: WallFilmInput): WallFilm {
  const boreM = boreMm / MM_PER_M
  const { diffusivityM2PerS, kinematicM2PerS } = filmTransport(temperatureC)
  const reynolds = (4 * flowLPerMin * M3_PER_S) / (Math.PI * boreM * kinematicM2PerS)
  const sherwood = sherwoodOf({
    reynolds,
    schmidt: kinematicM2PerS / diffusivityM2PerS,
    boreOverLength: lengthM === undefined || lengthM === 0 ? 0 : boreM / lengthM,
    standingSherwood,
  })
  const filmMPerHour = ((sherwood * diffusivityM2PerS) / boreM) * S_PER_HOUR
  return { filmMPerHour, sherwood, reynolds, regime: filmRegime(reynolds) }
}
