import table from '@rillmark/reference/chlorine/decay.json' with { type: 'json' }

export type FilmRegime = 'standing' | 'laminar' | 'turbulent'

export interface SherwoodInput {
  reynolds: number
  schmidt: number
  /** Bore over length; 0 where the length is not known. */
  boreOverLength: number
  standingSherwood: number
}

const FIGURES = table.figures
/** The film of a pipe far shorter than wide means nothing; keeps it finite. */
const MOST_ENTRY = 1e15

/**
 * How the water moves, as far as a film at the wall goes.
 *
 * @param reynolds Reynolds number
 * @source epanet-2-2
 * @example
 * filmRegime(5000) // => "turbulent"
 */
export function filmRegime(reynolds: number): FilmRegime {
  if (reynolds < FIGURES.movingAbove.value) return 'standing'
  return reynolds < FIGURES.turbulentAbove.value ? 'laminar' : 'turbulent'
}

/**
 * The Sherwood number of a pipe (1): how much faster than through a still film a bore thick chlorine reaches the wall.
 *
 * Laminar Sh = 3.65 + 0.0668 y / (1 + 0.04 y^(2/3)), y = (d/L) Re Sc; turbulent Sh = 0.0149 Re^0.88 Sc^(1/3).
 *
 * Special cases: below a Reynolds number of 1 the water stands and the number is as given.
 *
 * @param input Reynolds and Schmidt number, bore over length, Sherwood number of standing water
 * @source epanet-2-2
 * @example
 * sherwoodOf({ reynolds: 0, schmidt: 800, boreOverLength: 0, standingSherwood: 2 }) // => 2
 */
export function sherwoodOf({ reynolds, schmidt, boreOverLength, standingSherwood }: SherwoodInput): number {
  const regime = filmRegime(reynolds)
  if (regime === 'standing') return standingSherwood
  if (regime === 'turbulent')
    return FIGURES.turbulentSlope.value * reynolds ** FIGURES.turbulentPower.value * Math.cbrt(schmidt)
  const entry = Math.min(boreOverLength * reynolds * schmidt, MOST_ENTRY)
  const rise = FIGURES.entrySlope.value * entry
  return FIGURES.laminarSherwood.value + rise / (1 + FIGURES.entryDamping.value * Math.cbrt(entry) ** 2)
}
