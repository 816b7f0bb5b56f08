import regimes from '@rillmark/reference/water/flow-regimes.json' with { type: 'json' }
import { kinematicViscosityMm2PerS } from './viscosity.ts'

export type Regime = 'laminar' | 'in-between' | 'turbulent'

export interface PipeFlow {
  velocityMPerS: number
  reynolds: number
  regime: Regime
}

const MM_PER_M = 1000
/** 1 L/min through 1 mm² in m/s: 10⁻³ m³ / 60 s / 10⁻⁶ m². */
const M_PER_S = 1000 / 60

/**
 * Mean velocity of water in a pipe (m/s), its Reynolds number and how it moves.
 *
 * v = Q / (π/4 · d²); Re = v · d / ν.
 *
 * @param pipe bore (mm, above 0), flow (L/min, at least 0), temperature 0 to 100 °C
 * @throws RangeError when the temperature is outside
 * @source iapws-sr6-08
 * @source reynolds-textbook
 * @example
 * pipeFlow({ boreMm: 20, flowLPerMin: 6, temperatureC: 20 }).regime // => "turbulent"
 */
export function pipeFlow({
  boreMm,
  flowLPerMin,
  temperatureC,
}: {
  boreMm: number
  flowLPerMin: number
  temperatureC: number
}): PipeFlow {
  const velocityMPerS = (flowLPerMin / ((Math.PI / 4) * boreMm * boreMm)) * M_PER_S
  const reynolds = (velocityMPerS * boreMm * MM_PER_M) / kinematicViscosityMm2PerS(temperatureC)
  return { velocityMPerS, reynolds, regime: regimeOf(reynolds) }
}

function regimeOf(reynolds: number): Regime {
  if (reynolds < regimes.figures.laminarBelow.value) return 'laminar'
  return reynolds > regimes.figures.turbulentAbove.value ? 'turbulent' : 'in-between'
}
