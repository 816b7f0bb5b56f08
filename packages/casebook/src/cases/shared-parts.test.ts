import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { aCase, stay } from '../testing/three-cases.ts'
import { sharedParts } from './shared-parts.ts'

const { make } = entryMaker('marram-house', { device: 'desk-2' })
const described = make('building.described', { source: 'quick description', system: buildSystem(marramHouse) })
const days = { from: '2026-02-10', to: '2026-02-12' }

test('[CAS9] rooms on one riser come together under the riser, once the building is described', () => {
  const cases = [
    aCase('C1', '2026-02-15'),
    aCase('C2', '2026-02-16'),
    stay('C1', { place: 'Room 605', ...days }),
    stay('C2', { place: 'Shower, room 405', ...days }),
  ]
  expect(sharedParts(derive('marram-house', cases))[0]).toMatchObject({ inWindow: 1 })
  const [first, ...others] = sharedParts(derive('marram-house', [...cases, described]))
  expect(first).toMatchObject({ place: 'Riser C', inWindow: 2 })
  expect(others.map(({ place, inWindow }) => [place, inWindow])).toContainEqual(['Floor 6', 1])
})
