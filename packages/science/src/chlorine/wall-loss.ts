const SIDES_PER_BORE = 4

/**
 * The rate at which a pipe's wall takes a residual through the film along it (per hour).
 * Wanted by the calculation of one residual and by the simulation of a building alike.
 *
 * k = (4/d) k_w k_f / (k_w + k_f).
 *
 * Special cases: a wall that takes nothing gives 0; a very large coefficient leaves the film as the limit.
 *
 * @param pipe bore (m), film and wall coefficient (m/h), above 0 and from 0
 * @source epanet-2-2
 * @example
 * wallLossPerHour({ boreM: 0.01, filmMPerHour: 0.001, wallMPerHour: 0.001 }) // => 0.2
 */
export function wallLossPerHour(pipe: { boreM: number; filmMPerHour: number; wallMPerHour: number }): number {
  const { boreM, filmMPerHour, wallMPerHour } = pipe
  if (wallMPerHour === 0) return 0
  return (SIDES_PER_BORE / boreM) * (filmMPerHour / (1 + filmMPerHour / wallMPerHour))
}
