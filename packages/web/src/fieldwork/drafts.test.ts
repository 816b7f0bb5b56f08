import { expect, it } from 'vitest'
import { changedDraft, type DraftPlace, draftFrom, readDraft, writeDraft } from './drafts.ts'

function memory(): DraftPlace & { readonly kept: Map<string, string> } {
  const kept = new Map<string, string>()
  return {
    kept,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
  }
}

it('what was typed is there again for whoever reads the place next, field by field', () => {
  const place = memory()
  const one = changedDraft(readDraft(place, 'a/R1/S1'), { fields: { label: 'MRH-00' }, now: 5 })
  writeDraft(place, { name: 'a/R1/S1', draft: one })
  const two = changedDraft(readDraft(place, 'a/R1/S1'), {
    fields: { label: 'MRH-0012', startedAt: '1772611200000' },
    now: 9,
  })
  writeDraft(place, { name: 'a/R1/S1', draft: two })
  expect(readDraft(place, 'a/R1/S1')).toEqual({ at: 9, fields: { label: 'MRH-0012', startedAt: '1772611200000' } })
  expect(readDraft(place, 'a/R1/S2')).toEqual({ at: 0, fields: {} })
})

it('an empty text clears its field', () => {
  const typed = changedDraft({ at: 0, fields: {} }, { fields: { one: '1', two: '2' }, now: 1 })
  expect(changedDraft(typed, { fields: { one: '' }, now: 2 }).fields).toEqual({ two: '2' })
})

it('a change is newer than the one before it even when the clock was set back', () => {
  const typed = changedDraft({ at: 5000, fields: { one: '1' } }, { fields: { one: '12' }, now: 100 })
  expect(typed.at).toBeGreaterThan(5000)
})

it('damaged storage counts as nothing typed, a full one says so', () => {
  for (const text of ['{', '[]', '"x"', 'null', '{"at":1}', '{"at":"1","fields":{}}', '{"at":1,"fields":[]}'])
    expect(draftFrom(text)).toEqual({ at: 0, fields: {} })
  const full: DraftPlace = {
    ...memory(),
    setItem: () => {
      throw new Error('full')
    },
  }
  expect(writeDraft(full, { name: 'a', draft: { at: 1, fields: { one: '1' } } })).toBe(false)
})
