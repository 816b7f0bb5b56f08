import type { PlannedOutlet } from './build-parts.ts'
import type { BuildingShape, OutletCounts, QuickDescription } from './quick-description.ts'
import { idPart, outletsAt } from './quick-description.ts'
import type { ComponentKind } from './water-system.ts'

interface Place {
  floor: number
  riser: string
  counts: OutletCounts
}

interface OutletInRoom {
  id: string
  kind: ComponentKind
  room: string
}

const kindsOf = (counts: OutletCounts): [ComponentKind, number][] =>
  Object.entries(counts).map(([kind, count]) => [kind as ComponentKind, count ?? 0])

/**
 * Gives the outlets of a place their rooms: the first of each kind share the first room of the riser, the second of
 * each kind the next one. Rooms of a riser keep their last digits on every floor, as in most buildings.
 */
function outletRooms(description: QuickDescription, shape: BuildingShape): (place: Place) => OutletInRoom[] {
  const places = shape.floors.flatMap((floor) => shape.risers.map((riser) => outletsAt(description, { floor, riser })))
  const most = Math.max(1, ...places.map((counts) => Math.max(0, ...kindsOf(counts).map(([, count]) => count))))
  const digits = Math.max(2, String(most * shape.risers.length).length)
  const risers = new Map(shape.risers.map((riser, index) => [riser, index]))
  return ({ floor, riser, counts }) => {
    const roomAt = (slot: number): string =>
      `${floor < 0 ? `B${-floor}` : floor}${String((risers.get(riser) ?? 0) * most + slot + 1).padStart(digits, '0')}`
    return kindsOf(counts)
      .flatMap(([kind, count]) => Array.from({ length: count }, (_, slot) => ({ kind, slot })))
      .sort((a, b) => a.slot - b.slot)
      .map(({ kind, slot }) => {
        const room = roomAt(slot)
        return { id: `${kind}-${idPart(riser)}${room.toLowerCase()}`, kind, room }
      })
  }
}

/** Every outlet of the description in a fixed order: floor, riser, then kind by room. */
export function plannedOutlets(description: QuickDescription, shape: BuildingShape): PlannedOutlet[] {
  const rooms = outletRooms(description, shape)
  return shape.floors.flatMap((floor) =>
    shape.risers.flatMap((riser) =>
      rooms({ floor, riser, counts: outletsAt(description, { floor, riser }) }).map((outlet, position) => ({
        ...outlet,
        floor,
        riser,
        position,
      })),
    ),
  )
}
