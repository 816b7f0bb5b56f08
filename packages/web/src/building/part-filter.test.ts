import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { expect, test } from 'vitest'
import { partsFor } from './part-filter.ts'

const marram = buildSystem(marramHouse)

test.each([
  ['shower riser c', 'all', 5],
  ['RISER C floor 6', 'outlets', 4],
  ['', 'devices', 1],
  ['c605 shower', 'all', 1],
  ['riser z', 'all', 0],
] as const)('%s among %s finds %i parts', (text, which, count) =>
  expect(partsFor(marram, { text, which })).toHaveLength(count),
)
