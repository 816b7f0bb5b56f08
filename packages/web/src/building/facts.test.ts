import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import type { Component } from '@rillmark/casebook/building/water-system.ts'
import { expect, test } from 'vitest'
import { componentFrom, draftOf, pipeFrom, supplyFrom } from './facts.ts'

const { components, pipes, supply } = buildSystem({
  ...marramHouse,
  mixing: 'point-of-use',
  coldTank: { volumeL: 900 },
})
const scheduled: Component = {
  id: 'b1',
  kind: 'bath',
  use: { pattern: 'schedule', draws: [{ at: '07:30', minutes: 10, flowLPerMin: 9 }], mixToC: 38 },
}

test('every part of a building goes through its form unchanged', () => {
  for (const one of [...components, scheduled])
    expect(componentFrom(draftOf(one), one)).toEqual({ ok: true, value: one })
  for (const one of pipes) expect(pipeFrom(draftOf(one), one)).toEqual({ ok: true, value: one })
  expect(supplyFrom(draftOf(supply), supply)).toEqual({ ok: true, value: supply })
})

test('facts are typed with a comma, emptied, and refused by name', () => {
  const change = (draft: Record<string, string>) => componentFrom({ ...draftOf(scheduled), ...draft }, scheduled)
  expect(change({ mixToC: '38,5', room: '12' })).toMatchObject({ value: { room: '12', use: { mixToC: 38.5 } } })
  const unused = change({ pattern: 'unused' })
  expect(unused.ok && unused.value.use).toEqual({ pattern: 'unused' })
  const wrong = change({ floor: 'first', draws: 'in the morning' })
  expect(wrong.ok ? [] : wrong.issues.map(({ path }) => path)).toEqual(['floor', 'use.draws'])
})
