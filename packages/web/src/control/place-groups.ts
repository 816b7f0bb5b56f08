import { kindWord } from '@rillmark/casebook/building/labels.ts'
import { type Component, isHeater, isOutlet, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'

/** Places that are picked together. */
export interface PlaceGroup {
  readonly label: string
  readonly ids: readonly string[]
}

/** The groups of a building's places: by riser, floor, zone and kind of outlet, and the heaters. Empty and single ways of grouping fall away. */
export function groupsOf(system: WaterSystem): { name: string; members: PlaceGroup[] }[] {
  const outlets = system.components.filter(isOutlet)
  const floorName = new Map(system.floors?.map(({ floor, name }) => [floor, name]))
  const ways = [
    { name: 'Riser', members: grouped(outlets, ({ riser }) => riser) },
    {
      name: 'Floor',
      members: grouped(outlets, ({ floor }) =>
        floor === undefined ? undefined : (floorName.get(floor) ?? String(floor)),
      ),
    },
    { name: 'Zone', members: grouped(outlets, ({ zone }) => zone) },
    { name: 'Kind', members: grouped(outlets, ({ kind }) => kindWord(kind)) },
    { name: 'Plant', members: grouped(system.components.filter(isHeater), () => 'heaters') },
  ]
  return ways.filter(({ name, members }) => members.length > (name === 'Plant' ? 0 : 1))
}

function grouped(components: readonly Component[], by: (component: Component) => string | undefined): PlaceGroup[] {
  const ids = new Map<string, string[]>()
  for (const component of components) {
    const label = by(component)
    if (label !== undefined) ids.set(label, [...(ids.get(label) ?? []), component.id])
  }
  return [...ids]
    .map(([label, members]) => ({ label, ids: members }))
    .sort((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true }))
}
