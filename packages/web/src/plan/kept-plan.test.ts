import { expect, it } from 'vitest'
import { FIRST_WISHES, firstWishes, type PlanWishes, readWishes, wishesText } from './kept-plan.ts'

const building = new Set(['shower-1', 'shower-2'])
const known = (components: ReadonlySet<string>) => ({ components, first: FIRST_WISHES })
const wishes: PlanWishes = {
  budget: { samples: 60, teams: 1, hours: 6, perPointMinutes: 0 },
  asked: [{ component: 'shower-1', text: 'the case used it' }],
  excluded: [{ component: 'shower-2', text: 'locked' }],
}

it('what was chosen comes back as it was', () => {
  expect(readWishes(wishesText(wishes, FIRST_WISHES), known(building))).toEqual(wishes)
})

it('nothing chosen is nothing to keep, and nothing kept is the first choice', () => {
  expect(wishesText(FIRST_WISHES, FIRST_WISHES)).toBeUndefined()
  expect(readWishes(undefined, known(building))).toEqual(FIRST_WISHES)
})

it('a point that left the building leaves the draft; a damaged draft counts as none', () => {
  expect(readWishes(wishesText(wishes, FIRST_WISHES), known(new Set(['shower-1']))).excluded).toEqual([])
  for (const text of ['{', 'null', '{"budget":{"samples":-1}}', JSON.stringify({ ...wishes, more: 1 })])
    expect(readWishes(text, known(building))).toEqual(FIRST_WISHES)
})

it('[PLN22] a round that follows another begins with room for what that one sampled', () => {
  expect(firstWishes(0)).toEqual(FIRST_WISHES)
  expect(firstWishes(73).budget.samples).toBe(73)
  const first = firstWishes(73)
  expect(wishesText(first, first)).toBeUndefined()
  expect(readWishes(undefined, { components: building, first })).toEqual(first)
})
