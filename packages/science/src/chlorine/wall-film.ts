import table from '@rillmark/reference/chlorine/decay.json' with { type: 'json' }
import { KELVIN_AT_ZERO_C } from '../water/kelvin.ts'
import { waterDensityKgPerM3, waterViscosityMPaS } from '../water/liquid-water.ts'

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
  regime: 'standing' | 'laminar' | 'turbulent'
}

const FIGURES = table.figures
const MM_PER_M = 1000
/** The film of a pipe far shorter than wide means nothing; keeps it finite. */
const MOST_ENTRY = 1e15
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
  const kinematic = waterViscosityMPaS(temperatureC) / MM_PER_M / waterDensityKgPerM3(temperatureC)
  const diffusivity = diffusivityM2PerS(temperatureC)
  const reynolds = (4 * flowLPerMin * M3_PER_S) / (Math.PI * boreM * kinematic)
  const schmidt = kinematic / diffusivity
  const regime = regimeOf(reynolds)
  const entry =
    lengthM === undefined || lengthM === 0 ? 0 : Math.min((boreM / lengthM) * reynolds * schmidt, MOST_ENTRY)
  const sherwood = { standing: standingSherwood, laminar: laminar(entry), turbulent: turbulent({ reynolds, schmidt }) }[
    regime
  ]
  return { filmMPerHour: ((sherwood * diffusivity) / boreM) * S_PER_HOUR, sherwood, reynolds, regime }
}

function diffusivityM2PerS(temperatureC: number): number {
  const atC = FIGURES.diffusivityAtC.value
  const warmth = (temperatureC + KELVIN_AT_ZERO_C) / (atC + KELVIN_AT_ZERO_C)
  return FIGURES.diffusivity.value * warmth * (waterViscosityMPaS(atC) / waterViscosityMPaS(temperatureC))
}

function regimeOf(reynolds: number): WallFilm['regime'] {
  if (reynolds < FIGURES.movingAbove.value) return 'standing'
  return reynolds < FIGURES.turbulentAbove.value ? 'laminar' : 'turbulent'
}

function laminar(entry: number): number {
  const { laminarSherwood, entrySlope, entryDamping } = FIGURES
  return laminarSherwood.value + (entrySlope.value * entry) / (1 + entryDamping.value * entry ** (2 / 3))
}

function turbulent({ reynolds, schmidt }: { reynolds: number; schmidt: number }): number {
  return FIGURES.turbulentSlope.value * reynolds ** FIGURES.turbulentPower.value * Math.cbrt(schmidt)
}
