import type { WaterSystem } from './water-system.ts'

export type FloorNames = WaterSystem['floors']

/** What a floor is called at its head: the name it was given, else `Ground`, `Basement 1`, `Floor 4`. */
export function floorName(floors: FloorNames, floor: number): string {
  const given = floors?.find((one) => one.floor === floor)?.name
  return given ?? (floor < 0 ? `Basement ${-floor}` : floor === 0 ? 'Ground' : `Floor ${floor}`)
}

/** The same within a line: `plant`, `ground`, `floor 4`. */
export function floorWords(floors: FloorNames, floor: number): string {
  const name = floorName(floors, floor)
  return `${name.charAt(0).toLowerCase()}${name.slice(1)}`
}
