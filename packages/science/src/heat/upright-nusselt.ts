import table from '@rillmark/reference/heat/film.json' with { type: 'json' }

const FIGURES = table.figures

/**
 * Mean Nusselt number of free convection from an upright cylinder, by its height (a pure number).
 * Wanted because air that rises along a riser warms on its way, so a riser gives off less than a level pipe.
 *
 * Nu = Nu(plate) · {1 + B · [√32 · Gr^(−1/4) · L/D]^C}, Nu(plate) = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}²,
 * B = 0.0571322 + 0.20305 Pr^(−0.43), C = 0.9165 − 0.0043 √Pr + 0.01333 ln Pr + 0.0004809 / Pr, Gr = Ra / Pr.
 *
 * Special cases: the correction for slenderness was found for laminar air; in turbulent air it is drawn on. As Ra falls to
 * 0 it grows without limit: bound it by what a level pipe gives off, as `surfaceFilm` does.
 *
 * @param flow Rayleigh number by the height (above 0), Prandtl number (0.01 to 100), height over diameter
 * @source churchill-chu-1975-plate
 * @source popiel-2007
 * @example
 * uprightNusselt({ rayleigh: 0.7e10, prandtl: 0.7, slenderness: 2.5 }) // => 228.89790055149896
 */
export function uprightNusselt(flow: { rayleigh: number; prandtl: number; slenderness: number }): number {
  const { slenderFactor, slenderFactorPrandtl, slenderFactorPower, slenderGrashof } = FIGURES
  const grashof = flow.rayleigh / flow.prandtl
  const factor = slenderFactor.value + slenderFactorPrandtl.value * flow.prandtl ** -slenderFactorPower.value
  const thickness = Math.sqrt(slenderGrashof.value) * grashof ** -0.25 * flow.slenderness
  return plateNusselt(flow) * (1 + factor * thickness ** slenderPower(flow.prandtl))
}

/**
 * Mean Nusselt number of free convection from an upright plate (a pure number).
 *
 * Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}².
 *
 * @param flow Rayleigh number by the height (at least 0), Prandtl number (above 0)
 * @source churchill-chu-1975-plate
 * @example
 * plateNusselt({ rayleigh: 0.69 * 2.63e9, prandtl: 0.69 }) // => 147.16185223770603
 */
export function plateNusselt({ rayleigh, prandtl }: { rayleigh: number; prandtl: number }): number {
  const fluid = (1 + (FIGURES.platePrandtl.value / prandtl) ** (9 / 16)) ** (8 / 27)
  return (FIGURES.plateLeading.value + (FIGURES.plateSlope.value * rayleigh ** (1 / 6)) / fluid) ** 2
}

function slenderPower(prandtl: number): number {
  const { slenderPower: whole, slenderPowerRoot, slenderPowerLog, slenderPowerInverse } = FIGURES
  const bent = slenderPowerLog.value * Math.log(prandtl) - slenderPowerRoot.value * Math.sqrt(prandtl)
  return whole.value + bent + slenderPowerInverse.value / prandtl
}
