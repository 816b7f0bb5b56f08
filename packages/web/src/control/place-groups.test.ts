import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { isOutlet } from '@rillmark/casebook/building/water-system.ts'
import { expect, test } from 'vitest'
import { groupsOf } from './place-groups.ts'

const system = buildSystem(marramHouse)
const outlets = system.components.filter(isOutlet).length

test('risers, floors and kinds each hold every outlet once; plant stands apart', () => {
  const groups = new Map(groupsOf(system).map(({ name, members }) => [name, members]))
  expect(groups.get('Riser')?.map(({ label }) => label)).toEqual(['A', 'B', 'C', 'D'])
  for (const name of ['Riser', 'Floor', 'Kind'])
    expect(new Set(groups.get(name)?.flatMap(({ ids }) => ids)).size).toBe(outlets)
  expect(groups.get('Plant')?.[0]?.ids).toHaveLength(2)
  expect(groups.has('Zone')).toBe(false)
})
