import { expect, it } from 'vitest'
import { FIRST_WISHES, type PlanWishes, readWishes, wishesText } from './kept-plan.ts'

const building = new Set(['shower-1', 'shower-2'])
const wishes: PlanWishes = {
  budget: { samples: 60, teams: 1, hours: 6, perPointMinutes: 0 },
  asked: [{ component: 'shower-1', text: 'the case used it' }],
  excluded: [{ component: 'shower-2', text: 'locked' }],
}

it('what was chosen comes back as it was', () => {
  expect(readWishes(wishesText(wishes), building)).toEqual(wishes)
})

it('nothing chosen is nothing to keep, and nothing kept is the first choice', () => {
  expect(wishesText(FIRST_WISHES)).toBeUndefined()
  expect(readWishes(undefined, building)).toEqual(FIRST_WISHES)
})

it('a point that left the building leaves the draft; a damaged draft counts as none', () => {
  expect(readWishes(wishesText(wishes), new Set(['shower-1'])).excluded).toEqual([])
  for (const text of ['{', 'null', '{"budget":{"samples":-1}}', JSON.stringify({ ...wishes, more: 1 })])
    expect(readWishes(text, building)).toEqual(FIRST_WISHES)
})
