import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import type { Investigation } from '../store/investigation.tsx'
import { recordAgain } from './record-again.ts'

const { make } = entryMaker('marram-house', { device: 'phone-before' })
const later = entryMaker('marram-house', { device: 'phone-after' })

/** Takes what is proposed, all but where `objects` says so. */
function record(objects: (kind: string, at: number) => boolean = () => false) {
  const proposed: Parameters<Investigation['propose']>[] = []
  const propose: Investigation['propose'] = async (kind, body, options) => {
    proposed.push([kind, body, options])
    if (objects(kind, proposed.length)) return { ok: false, issues: [{ path: 'x', expected: 'y', received: 'z' }] }
    return { ok: true, entry: later.make(kind, body) as Entry }
  }
  return { proposed, propose }
}

test('[SYN32] each is recorded in its order, for the old one, behind a note that says what they are', async () => {
  const note = make('note.written', { text: 'one', purpose: 'note' })
  const amended = make('note.written', { text: 'two', purpose: 'note' }, { entry: note.id, reason: 'mistyped' })
  const { proposed, propose } = record()
  expect(await recordAgain([note, amended], propose)).toEqual({ done: 2, left: 0 })
  expect(proposed.map(([kind, , options]) => [kind, options?.instead?.id])).toEqual([
    ['note.written', undefined],
    ['note.written', note.id],
    ['note.written', amended.id],
  ])
  expect(proposed[0]?.[1]).toMatchObject({
    text: expect.stringContaining('2 entries written on this device as phone-before, before it was revoked'),
  })
  // it speaks of the new one, for the old one is in no record
  const corrects = proposed[2]?.[2]?.corrects
  expect(corrects?.reason).toBe('mistyped')
  expect(corrects?.entry).not.toBe(note.id)
})

test('[SYN32] what the record objects to is left for a person, and the others go in', async () => {
  const notes = ['one', 'two', 'three'].map((text) => make('note.written', { text, purpose: 'note' }))
  const { propose } = record((_, at) => at === 3)
  expect(await recordAgain(notes, propose)).toEqual({ done: 2, left: 1 })
  const none = record(() => true)
  expect(await recordAgain(notes, none.propose)).toEqual({ done: 0, left: 3 })
  expect(none.proposed).toHaveLength(1)
  expect(await recordAgain([], propose)).toEqual({ done: 0, left: 0 })
})
