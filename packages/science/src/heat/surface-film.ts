import table from '@rillmark/reference/heat/film.json' with { type: 'json' }
import { KELVIN_AT_ZERO_C } from '../water/kelvin.ts'
import { airAt } from './air.ts'

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
}

const FIGURES = table.figures

/**
 * How a level pipe in still air gives up heat at its surface (W/(m² K)): to the air that rises along it, and by radiation.
 * Wanted because this film, not the metal, decides what a bare pipe loses.
 *
 * convection = Nu k / D; radiation = ε σ (Tₛ² + Tₐ²)(Tₛ + Tₐ), temperatures in kelvin, air at the mean of both.
 *
 * Special cases: surface and air equally warm: convection tends to 0.36 k / D.
 *
 * @param surface outside diameter (m, above 0), surface and air (°C), emissivity 0 to 1
 * @source churchill-chu-1975
 * @source us-standard-atmosphere-1976
 * @source si-constants
 * @example
 * surfaceFilm({ diameterM: 0.022, surfaceC: 60, ambientC: 20, emissivity: 0.9 }).regime // => "laminar"
 */
export function surfaceFilm({ diameterM, surfaceC, ambientC, emissivity }: Surface): SurfaceFilm {
  const [surfaceK, ambientK] = [surfaceC + KELVIN_AT_ZERO_C, ambientC + KELVIN_AT_ZERO_C]
  const filmK = (surfaceK + ambientK) / 2
  const air = airAt(filmK)
  const kinematic = air.viscosityPaS / air.densityKgPerM3
  const buoyancy = (FIGURES.gravity.value * Math.abs(surfaceK - ambientK)) / filmK
  const rayleigh = (buoyancy * diameterM ** 3 * air.prandtl) / kinematic ** 2
  return {
    convectionWPerM2K: (cylinderNusselt({ rayleigh, prandtl: air.prandtl }) * air.conductivityWPerMK) / diameterM,
    radiationWPerM2K:
      emissivity * FIGURES.stefanBoltzmann.value * (surfaceK ** 2 + ambientK ** 2) * (surfaceK + ambientK),
    rayleigh,
    regime: regimeOf(rayleigh),
  }
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
