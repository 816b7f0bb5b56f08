import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import type { SystemChange } from '@rillmark/casebook/building/kinds.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import type { Component, KnownBy } from '@rillmark/casebook/building/water-system.ts'
import type { DemoDesk } from '../desk.ts'

/** The building as its water person told it, then what was seen on the walk. */
export function describeBuilding(desk: DemoDesk): void {
  desk.write(
    'building.described',
    { source: 'quick description', quick: marramHouse, system: buildSystem(marramHouse) },
    { at: '2026-03-02T14:20' },
  )
  desk.write(
    'history.recorded',
    {
      on: '2026-01-19',
      what: 'works',
      components: ['return-pump'],
      text: 'Return pump replaced after it seized. The four return valves were opened again by feel; nobody balanced them.',
    },
    { at: '2026-03-02T14:45' },
  )
  desk.write(
    'history.recorded',
    {
      on: '2025-11-24',
      until: '2026-02-06',
      what: 'closure',
      components: ['shower-b303', 'basin-tap-b303', 'kitchen-tap-b303'],
      text: 'Room 303 stood empty.',
    },
    { at: '2026-03-02T14:52' },
  )
  desk.write(
    'building.edited',
    { changes: seenOnTheWalk(desk), why: 'Walked with the water person' },
    { at: '2026-03-03T09:40' },
  )
}

function seenOnTheWalk(desk: DemoDesk): SystemChange[] {
  const put = (id: string, change: Partial<Component>, known: KnownBy): SystemChange => {
    const component = desk.state.building.working.component(id)
    if (component === undefined) throw new Error(`The example names a component that is not described: ${id}`)
    const provenance = {
      ...component.provenance,
      ...Object.fromEntries(Object.keys(change).map((fact) => [fact, known])),
    }
    return { change: 'put-component', component: { ...component, ...change, provenance } }
  }
  return [
    put('heater-1', { label: 'Heater 1', volumeL: 1000, setpointC: 60 }, 'seen'),
    put('heater-2', { label: 'Heater 2', volumeL: 1000, setpointC: 60 }, 'seen'),
    put('return-pump', { notes: 'Runs; flow on the plate 12 L/min, not measured.' }, 'seen'),
    put('basin-tap-d208', { use: { pattern: 'unused' }, notes: 'Store room; the tap is never used.' }, 'seen'),
  ]
}

/** Everything that wets air: looked for, found or not. */
export function sweepDevices(desk: DemoDesk): void {
  const found: readonly [string, 'present' | 'absent' | 'not looked at', string?, string?][] = [
    ['ice-machine', 'present', 'Room 101', 'ice-machine-a101'],
    ['hose', 'present', 'Garden side', 'hose-tap-a101'],
    ['cooling-tower', 'absent'],
    ['spa-pool', 'absent'],
    ['ornamental-fountain', 'absent'],
    ['humidifier', 'not looked at', 'Staff say residents bring their own'],
    ['dental-unit', 'absent'],
    ['eyewash', 'absent'],
  ]
  for (const [device, state, place, component] of found)
    desk.write(
      'device.swept',
      { device, state, ...(place === undefined ? {} : { place }), ...(component === undefined ? {} : { component }) },
      { at: '2026-03-03T10:05' },
    )
}
