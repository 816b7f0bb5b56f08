import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import type { WaterSystem } from '../building/water-system.ts'
import { PROCEDURES } from '../procedures/procedures.ts'
import type { PlanInput } from './plan-input.ts'

/** The invented building of the worked example, where one kitchen tap on riser D stands unused. */
export function marramSystem(): WaterSystem {
  const system = buildSystem(marramHouse)
  const components = system.components.map((one) =>
    one.id === 'kitchen-tap-d307' ? { ...one, use: { pattern: 'unused' as const } } : one,
  )
  return { ...system, components }
}

export function marramInput(over: Partial<PlanInput> = {}): PlanInput {
  return {
    system: marramSystem(),
    procedures: PROCEDURES,
    budget: { samples: 60, teams: 2, hours: 8 },
    used: [
      { caseCode: 'MH-01', place: 'room 605', kind: 'shower', entry: 'e-1' },
      { caseCode: 'MH-02', place: 'Room 505', kind: 'stay' },
      { caseCode: 'MH-03', place: 'Swimming bath', kind: 'other' },
    ],
    sweep: [
      { device: 'spa pool', state: 'not looked at' },
      { device: 'ice machine', state: 'present', component: 'ice-machine-a101' },
      { device: 'humidifier', state: 'present', place: 'laundry' },
    ],
    history: [{ on: '2026-01-20', what: 'works', components: ['cold-b-f3'], text: 'branch renewed' }],
    ...over,
  }
}
