import { expect, it } from 'vitest'
import { type DraftPlace, readDraft, writeDraft } from './drafts.ts'

function memory(): DraftPlace & { readonly kept: Map<string, string> } {
  const kept = new Map<string, string>()
  return {
    kept,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
    removeItem: (key) => void kept.delete(key),
  }
}

it('what was typed is there again for whoever reads the place next, field by field', () => {
  const place = memory()
  writeDraft(place, { name: 'a/R1/S1', fields: { label: 'MRH-00' } })
  writeDraft(place, { name: 'a/R1/S1', fields: { label: 'MRH-0012', startedAt: '1772611200000' } })
  expect(readDraft(place, 'a/R1/S1')).toEqual({ label: 'MRH-0012', startedAt: '1772611200000' })
  expect(readDraft(place, 'a/R1/S2')).toEqual({})
})

it('an empty text clears its field, the last one clears the draft', () => {
  const place = memory()
  writeDraft(place, { name: 'a', fields: { one: '1', two: '2' } })
  expect(writeDraft(place, { name: 'a', fields: { one: '' } })).toEqual({ two: '2' })
  writeDraft(place, { name: 'a', fields: { two: '' } })
  expect(place.kept.size).toBe(0)
})

it('damaged storage counts as nothing typed, a full one keeps what the page holds', () => {
  const place = memory()
  for (const text of ['{', '[]', '"x"', 'null']) {
    place.kept.set('rillmark.draft.a', text)
    expect(readDraft(place, 'a')).toEqual({})
  }
  const full: DraftPlace = {
    ...memory(),
    setItem: () => {
      throw new Error('full')
    },
  }
  expect(writeDraft(full, { name: 'a', fields: { one: '1' } })).toEqual({ one: '1' })
})
