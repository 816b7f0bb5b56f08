import release from '@rillmark/reference/water/liquid-water.json' with { type: 'json' }
import { KELVIN_AT_ZERO_C } from './kelvin.ts'

/** The range in which water is liquid at ordinary pressure (°C). */
export const liquidWaterRangeC = release.rangeC

interface Term {
  factor: number
  power: number
}

const SLOPES = { alpha: release.heat.alpha.map(sloped), beta: release.heat.beta.map(sloped) }
const CURVED = { alpha: release.heat.alpha.map(curved), beta: release.heat.beta.map(curved) }

/**
 * Density of liquid water (kg/m³) at 0.1 MPa.
 *
 * 1/ρ = R·T₀/p · [a + Σ aᵢ αⁿ + Σ bᵢ βᵐ], α = T₀ / (593 − T), β = T₀ / (T − 232), T in kelvin.
 *
 * Special cases: at taps and in heaters the pressure is higher; that makes it 0.02 % denser at 0.5 MPa.
 *
 * @param temperatureC 0 to 100 °C
 * @throws RangeError outside the range
 * @source iapws-sr6-08
 * @example
 * waterDensityKgPerM3(25) // => 997.0470133997646
 */
export function waterDensityKgPerM3(temperatureC: number): number {
  const { alpha, beta } = distances(kelvinOf(temperatureC))
  const { constant, alpha: alphas, beta: betas } = release.volume
  const reduced = constant + sum(alphas, alpha) + sum(betas, beta)
  return release.pressure / (release.gas * release.scale * reduced)
}

/**
 * Heat capacity of liquid water at constant pressure (J/(kg K)) at 0.1 MPa.
 *
 * cp = −R · [c + τ Σ n(n+1) aᵢ αⁿ⁺² + τ Σ m(m+1) bᵢ βᵐ⁺²], τ = T/T₀.
 *
 * @param temperatureC 0 to 100 °C
 * @throws RangeError outside the range
 * @source iapws-sr6-08
 * @example
 * waterHeatCapacityJPerKgK(25) // => 4181.446178557689
 */
export function waterHeatCapacityJPerKgK(temperatureC: number): number {
  const temperatureK = kelvinOf(temperatureC)
  const { alpha, beta } = distances(temperatureK)
  const tau = temperatureK / release.scale
  return -release.gas * (release.heat.constant + tau * (sum(CURVED.alpha, alpha) + sum(CURVED.beta, beta)))
}

/** Nearer than this (K) the difference of two heat contents loses digits, and the heat capacity between says the same. */
const NEAR_K = 1e-3

/**
 * Mean heat capacity of liquid water between two temperatures (J/(kg K)) at 0.1 MPa: its heat content's difference per kelvin.
 *
 * c̄ = (h(b) − h(a)) / (b − a), h = −R·c·T + R·T₀·[Σ aᵢ αⁿ + Σ bᵢ βᵐ] − R·T·[Σ n aᵢ αⁿ⁺¹ − Σ m bᵢ βᵐ⁺¹].
 *
 * Special cases: two equal temperatures give the heat capacity there; their order does not matter.
 *
 * @param span both temperatures, 0 to 100 °C
 * @throws RangeError outside the range
 * @source iapws-sr6-08
 * @example
 * meanHeatCapacityJPerKgK({ fromC: 25, toC: 25 }) // => 4181.446178557689
 */
export function meanHeatCapacityJPerKgK({ fromC, toC }: { fromC: number; toC: number }): number {
  const [from, to] = [kelvinOf(fromC), kelvinOf(toC)]
  if (Math.abs(to - from) < NEAR_K) return waterHeatCapacityJPerKgK((fromC + toC) / 2)
  return (heatContentJPerKg(to) - heatContentJPerKg(from)) / (to - from)
}

/** Up to a constant. */
function heatContentJPerKg(temperatureK: number): number {
  const { alpha, beta } = distances(temperatureK)
  const { constant, alpha: alphas, beta: betas } = release.heat
  const level = release.scale * (sum(alphas, alpha) + sum(betas, beta))
  const slope = temperatureK * (sum(SLOPES.alpha, alpha) - sum(SLOPES.beta, beta))
  return release.gas * (level - slope - constant * temperatureK)
}

/**
 * Dynamic viscosity of liquid water (mPa s) at 0.1 MPa.
 *
 * μ = Σ aᵢ (T/300)^bᵢ.
 *
 * @param temperatureC 0 to 100 °C
 * @throws RangeError outside the range
 * @source iapws-sr6-08
 * @example
 * waterViscosityMPaS(25) // => 0.889996773678783
 */
export function waterViscosityMPaS(temperatureC: number): number {
  return sum(release.viscosity, kelvinOf(temperatureC) / release.reducingK) / MICRO_PER_MILLI
}

const MICRO_PER_MILLI = 1000

function kelvinOf(temperatureC: number): number {
  const { lower, upper } = release.rangeC
  if (temperatureC >= lower && temperatureC <= upper) return temperatureC + KELVIN_AT_ZERO_C
  throw new RangeError(
    `Cannot tell a property of water because it holds from ${lower} to ${upper} °C: got ${temperatureC}`,
  )
}

function distances(temperatureK: number): { alpha: number; beta: number } {
  const { scale, volumePole, volumeFloor } = release
  return { alpha: scale / (volumePole - temperatureK), beta: scale / (temperatureK - volumeFloor) }
}

function sum(terms: readonly Term[], base: number): number {
  return terms.reduce((total, { factor, power }) => total + factor * base ** power, 0)
}

/** The first derivative of a power of a reciprocal distance. */
function sloped({ factor, power }: Term): Term {
  return { factor: power * factor, power: power + 1 }
}

/** The second derivative of a power of a reciprocal distance. */
function curved({ factor, power }: Term): Term {
  return { factor: power * (power + 1) * factor, power: power + 2 }
}
