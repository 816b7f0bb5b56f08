import table from '@rillmark/reference/heat/film.json' with { type: 'json' }
import { KELVIN_AT_ZERO_C } from '../water/kelvin.ts'
import { type Air, airAt } from './air.ts'
import { uprightNusselt } from './upright-nusselt.ts'

export type AirRegime = 'still' | 'laminar' | 'turbulent'

export interface SurfaceFilm {
  convectionWPerM2K: number
  radiationWPerM2K: number
  rayleigh: number
  regime: AirRegime
}

export interface Surface {
  diameterM: number
  surfaceC: number
  ambientC: number
  emissivity: number
  /** Of a pipe that stands upright; left out for a level one. */
  uprightHeightM?: number | undefined
}

const FIGURES = table.figures

/**
 * How a pipe in still air gives up heat at its surface (W/(m² K)): to the air that rises along it, and by radiation.
 * Wanted because this film, not the metal, decides what a bare pipe loses.
 *
 * convection = Nu k / D; radiation = ε σ (Tₛ² + Tₐ²)(Tₛ + Tₐ), temperatures in kelvin, air at the mean of both.
 *
 * Special cases: surface and air equally warm: convection tends to 0.36 k / D. A pipe with a height stands upright: its
 * convection goes by the height, k / H, and is never more than that of the same pipe laid level.
 *
 * @param surface outside diameter (m, above 0), surface and air (°C), emissivity 0 to 1, height of an upright pipe (m)
 * @source churchill-chu-1975
 * @source popiel-2007
 * @source us-standard-atmosphere-1976
 * @source si-constants
 * @example
 * surfaceFilm({ diameterM: 0.022, surfaceC: 60, ambientC: 20, emissivity: 0.9 }).regime // => "laminar"
 */
export function surfaceFilm(surface: Surface): SurfaceFilm {
  const [surfaceK, ambientK] = [surface.surfaceC + KELVIN_AT_ZERO_C, surface.ambientC + KELVIN_AT_ZERO_C]
  const air = airAt((surfaceK + ambientK) / 2)
  const rayleighPerM3 = rayleighOf({ air, surfaceK, ambientK })
  const sum = (surfaceK ** 2 + ambientK ** 2) * (surfaceK + ambientK)
  const radiationWPerM2K = surface.emissivity * FIGURES.stefanBoltzmann.value * sum
  return { ...convection(surface, { air, rayleighPerM3 }), radiationWPerM2K }
}

/** The Rayleigh number of a body one metre across. */
function rayleighOf({ air, surfaceK, ambientK }: { air: Air; surfaceK: number; ambientK: number }): number {
  const kinematic = air.viscosityPaS / air.densityKgPerM3
  const buoyancy = (FIGURES.gravity.value * Math.abs(surfaceK - ambientK)) / ((surfaceK + ambientK) / 2)
  return (buoyancy * air.prandtl) / kinematic ** 2
}

function convection(
  { diameterM, uprightHeightM }: Surface,
  { air, rayleighPerM3 }: { air: Air; rayleighPerM3: number },
): Omit<SurfaceFilm, 'radiationWPerM2K'> {
  const { conductivityWPerMK, prandtl } = air
  const across = rayleighPerM3 * diameterM ** 3
  const level = (cylinderNusselt({ rayleigh: across, prandtl }) * conductivityWPerMK) / diameterM
  const flat = { convectionWPerM2K: level, rayleigh: across, regime: regimeOf(across) }
  if (uprightHeightM === undefined || across === 0) return flat
  const rayleigh = rayleighPerM3 * uprightHeightM ** 3
  const slenderness = uprightHeightM / diameterM
  const upright = (uprightNusselt({ rayleigh, prandtl, slenderness }) * conductivityWPerMK) / uprightHeightM
  return { convectionWPerM2K: Math.min(upright, level), rayleigh, regime: regimeOf(rayleigh) }
}

/**
 * Mean Nusselt number of free convection from a level cylinder (a pure number).
 *
 * Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}². Ra = Gr · Pr: the Grashof number in its place is wrong.
 *
 * @param flow Rayleigh number (0 to 1e12) and Prandtl number (above 0)
 * @source churchill-chu-1975
 * @example
 * cylinderNusselt({ rayleigh: 0.69 * 2.63e9, prandtl: 0.69 }) // => 139.13493970073597
 */
export function cylinderNusselt({ rayleigh, prandtl }: { rayleigh: number; prandtl: number }): number {
  const fluid = (1 + (FIGURES.churchillChuPrandtl.value / prandtl) ** (9 / 16)) ** (8 / 27)
  return (FIGURES.churchillChuLeading.value + (FIGURES.churchillChuSlope.value * rayleigh ** (1 / 6)) / fluid) ** 2
}

function regimeOf(rayleigh: number): AirRegime {
  if (rayleigh < FIGURES.stillBelow.value) return 'still'
  return rayleigh < FIGURES.turbulentAbove.value ? 'laminar' : 'turbulent'
}
