import { expect, it } from 'vitest'
import { DraftCopies } from './draft-copies.ts'
import { draftFrom, type KeptDraft, readDraft, writeDraft } from './drafts.ts'

const NAME = 'a/R1/S1'

/** The two places a draft is kept in; the database answers when told. */
function device(given: { atOnce?: KeptDraft; lasting?: KeptDraft; broken?: boolean } = {}) {
  const texts = new Map<string, string>()
  const place = {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, value: string) => void texts.set(key, value),
  }
  if (given.atOnce !== undefined) writeDraft(place, { name: NAME, draft: given.atOnce })
  let lasting = given.lasting === undefined ? undefined : JSON.stringify(given.lasting)
  let writes = 0
  let answer: () => void = () => undefined
  const answered = new Promise<void>((resolve) => (answer = resolve))
  const copies = new DraftCopies({
    name: NAME,
    place,
    lasting: {
      read: async () => {
        await answered
        if (given.broken === true) throw new Error('no database')
        return lasting
      },
      keep: async (text) => {
        if (given.broken === true) throw new Error('no database')
        writes += 1
        lasting = text
      },
    },
    now: () => 1000,
  })
  return {
    copies,
    answer: () => answer(),
    atOnce: () => readDraft(place, NAME).fields,
    lasting: () => draftFrom(lasting).fields,
    writes: () => writes,
  }
}

const OLD: KeptDraft = { at: 10, fields: { points: '0', startedAt: '5' } }
const FULL: KeptDraft = { at: 40, fields: { points: '0,10,20,30', startedAt: '5' } }

it('[OFF21] what is written before the database answered does not make the older copy the newer one', async () => {
  const here = device({ atOnce: OLD, lasting: FULL })
  const reading = here.copies.read()
  await here.copies.set({ told: '5/1' })
  expect(here.lasting()).toEqual(FULL.fields)
  here.answer()
  await reading
  const both = { ...FULL.fields, told: '5/1' }
  expect(here.copies.present.fields).toEqual(both)
  expect([here.lasting(), here.atOnce()]).toEqual([both, both])
  expect(here.copies.present.at).toBeGreaterThan(FULL.at)
})

it('[OFF21] the copy at once wins where it is the newer one, and nothing is written until something changes', async () => {
  const here = device({ atOnce: FULL, lasting: OLD })
  here.answer()
  await here.copies.read()
  expect(here.copies.present).toEqual(FULL)
  expect(here.writes()).toBe(0)
  await here.copies.set({ typed: '48' })
  expect(here.lasting()).toEqual({ ...FULL.fields, typed: '48' })
})

it('[OFF21] fields cleared, and all of it cleared, before the database answered stay cleared', async () => {
  const field = device({ atOnce: OLD, lasting: FULL })
  void field.copies.set({ points: '' })
  field.answer()
  await field.copies.read()
  expect(field.lasting()).toEqual({ startedAt: '5' })
  const all = device({ atOnce: OLD, lasting: FULL })
  void all.copies.set({ told: '5/1' })
  void all.copies.clear()
  void all.copies.set({ typed: '31' })
  all.answer()
  await all.copies.read()
  expect([all.lasting(), all.atOnce()]).toEqual([{ typed: '31' }, { typed: '31' }])
})

it('a database that does not answer leaves the copy at once, and one that takes nothing is said where that has no room either', async () => {
  const here = device({ atOnce: OLD, broken: true })
  void here.copies.set({ typed: '31' })
  here.answer()
  expect(await here.copies.read()).toBe(true)
  expect(here.atOnce()).toEqual({ ...OLD.fields, typed: '31' })
  const full = new DraftCopies({
    name: NAME,
    place: {
      getItem: () => null,
      setItem: () => {
        throw new Error('full')
      },
    },
    lasting: { read: () => Promise.reject(new Error('no database')), keep: () => Promise.reject(new Error('full')) },
    now: () => 1000,
  })
  void full.set({ typed: '31' })
  expect(await full.read()).toBe(false)
  expect(full.present.fields).toEqual({ typed: '31' })
})
