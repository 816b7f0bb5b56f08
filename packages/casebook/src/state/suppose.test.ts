import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { added, door, investigation, writer } from '../contests/contests.fixture.ts'
import type { Entry } from '../entry/entry.ts'
import { derive, deriveSupposed, extend } from './derive.ts'
import { supposing } from './suppose.ts'

const SEED = 20261130
const CODES = ['C1', 'C2', 'C3']

/** A record as two devices make it: cases twice told, amended, withdrawn, settled one way or the other, visits and notes. */
function recordOf(acts: readonly number[]): {
  readonly record: readonly Entry[]
  readonly originals: readonly Entry[]
} {
  const [at, record, originals] = [door(), [] as Entry[], [] as Entry[]]
  const hands = [writer('desk'), writer('phone')]
  for (const act of acts) {
    const hand = hands[act % 2] ?? writer('desk')
    const code = CODES[act % CODES.length] ?? 'C1'
    const target = record[act % Math.max(1, record.length)]
    const contest = [...at.state.contests.contested.values()].find(
      ({ original }) => !at.state.contests.settled.has(original.id),
    )
    const correcting = target === undefined ? undefined : { entry: target.id, reason: 'x' }
    const drafts: readonly (() => Entry)[] = [
      () => hand.aCase(code, { seen: 0 }),
      () => hand.stay(code, { seen: 0 }),
      () => hand.note(`of ${code}`, { seen: 0 }),
      () => hand.reading(50 + act, { seen: 0 }),
      () => hand.finished('sampled', { seen: 0 }),
      () => hand.make('note.written', { text: 'better', purpose: 'note' }, correcting),
      () => hand.make('entry.withdrawn', {}, correcting),
      () => hand.settled(contest?.original.id ?? 'none', act % 3 === 0 ? 'first stands' : 'second stands'),
    ]
    const entry = drafts[Math.floor(act / 6) % drafts.length]?.()
    if (entry === undefined) continue
    const decision = at.decide(entry)
    record.push(...added(decision))
    if (decision.verdict !== 'refused') originals.push(entry)
  }
  return { record, originals }
}

test('[CON13] what would follow from another record is the same whether little of it is derived anew or all', () => {
  const change = fc.record({
    acts: fc.array(fc.nat({ max: 1000 }), { maxLength: 40 }),
    without: fc.array(fc.nat({ max: 60 }), { maxLength: 6 }),
    also: fc.array(fc.nat({ max: 60 }), { maxLength: 2 }),
  })
  let touched = 0
  fc.assert(
    fc.property(change, ({ acts, without, also }) => {
      const { record, originals } = recordOf(acts)
      const asked = {
        without: new Set(without.flatMap((place) => record[place % Math.max(1, record.length)]?.id ?? [])),
        also: also.flatMap((place) => originals[place % Math.max(1, originals.length)] ?? []),
      }
      if (asked.without.size + asked.also.length > 0) touched += 1
      const want = deriveSupposed(investigation, { entries: record, ...asked })
      // grown entry by entry, as at a door, and asked in between
      const half = Math.floor(record.length / 2)
      const start = derive(investigation, record.slice(0, half))
      void supposing(start)(asked).cases
      const state = extend(start, record.slice(half))
      expect({ ...supposing(state)(asked) }).toEqual(want)
    }),
    { seed: SEED, numRuns: 300 },
  )
  expect(touched).toBeGreaterThan(150)
})
