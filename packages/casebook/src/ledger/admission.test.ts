import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { Admission } from './admission.ts'

const { make } = entryMaker('marram-house')
const note = (text: string) => make('note.written', { text, purpose: 'note' })

test('[ADM1] an entry already in the record is known, not refused and not taken twice', () => {
  const first = note('one')
  const admission = new Admission('marram-house', [first])
  expect(admission.decide(first)).toEqual({ verdict: 'known', id: first.id })
  expect(admission.state.record.entries).toEqual([first])
})

test('[ADM2] each entry is judged by the state the ones before it left, also within one batch', () => {
  const first = note('one')
  const amendment = make('note.written', { text: 'two', purpose: 'note' }, { entry: first.id, reason: 'misheard' })
  const admission = new Admission('marram-house', [])
  expect(admission.decide(amendment)).toMatchObject({ verdict: 'refused', issues: [{ path: 'corrects.entry' }] })
  const later = { ...amendment, deviceSequence: 7 }
  expect([admission.decide(first), admission.decide(later)]).toMatchObject([
    { verdict: 'accepted' },
    { verdict: 'accepted' },
  ])
  expect(admission.state.brief.notes).toMatchObject([{ id: first.id, body: { text: 'two' }, amendments: 1 }])
})

test('[ADM3] the numbers of one device only rise; other devices count for themselves', () => {
  const [first, second] = [note('one'), note('two')]
  const admission = new Admission('marram-house', [])
  expect(admission.decide(second)).toMatchObject({ verdict: 'accepted' })
  expect(admission.decide(first)).toMatchObject({
    verdict: 'refused',
    id: first.id,
    issues: [{ path: 'deviceSequence' }],
  })
  expect(admission.decide({ ...first, device: 'phone-1' })).toMatchObject({ verdict: 'accepted' })
})

test.each([
  ['nothing', undefined],
  ['null', null],
  ['a text', 'x'],
  ['a list', []],
  ['an empty object', {}],
  ['an unknown kind', { ...note('x'), kind: 'no.such' }],
  ['an unknown field', { ...note('x'), extra: 1 }],
  ['another investigation', entryMaker('quay-hotel').make('note.written', { text: 'x', purpose: 'note' })],
  ['half of a surrogate pair', note('bad \ud800')],
])('[ADM4] %s is refused with issues and leaves the state as it was', (_, candidate) => {
  const admission = new Admission('marram-house', [])
  const decision = admission.decide(candidate)
  expect(decision.verdict).toBe('refused')
  expect(decision.verdict === 'refused' && decision.issues.length > 0).toBe(true)
  expect(admission.state).toEqual(derive('marram-house', []))
})

test('[ADM5] an accepted entry is in normal form: trimmed, defaults filled in', () => {
  const admission = new Admission('marram-house', [])
  const decision = admission.decide({ ...note('x'), body: { text: '  spaced  ' } })
  expect(decision).toMatchObject({ verdict: 'accepted', entry: { body: { text: 'spaced', purpose: 'note' } } })
})

const key = testKey('phone')
const phone = entryMaker('marram-house', { device: 'phone' })
const joined = key.sign(phone.make('device.joined', { name: 'Phone', role: 'sampler', key: key.key }))
const said = (text: string) => phone.make('note.written', { text, purpose: 'note' })

test('[ADM6] a signed entry goes in as it was written, and is read in normal form', () => {
  const admission = new Admission('marram-house', [joined])
  const written = key.sign({ ...said('x'), body: { text: '  spaced  ' } })
  expect(admission.decide(written)).toEqual({ verdict: 'accepted', entry: written })
  expect(admission.state.brief.notes.at(-1)?.body).toEqual({ text: 'spaced', purpose: 'note' })
})

test.each([
  ['unsigned', (entry: object) => entry],
  ['signed by another key', (entry: object) => testKey('another').sign(entry)],
  ['altered after it was signed', (entry: object) => ({ ...key.sign(entry), author: 'S. Other' })],
])('[ADM7] what a device with a key sends %s is refused, and changes nothing', (_, make) => {
  const admission = new Admission('marram-house', [joined])
  const entry = said('x')
  expect(admission.decide(make(entry))).toMatchObject({ verdict: 'refused', issues: [{ path: 'signature' }] })
  expect(admission.state.brief.notes).toEqual([])
  expect(admission.decide(key.sign(entry)).verdict).toBe('accepted')
})

test('[ADM7] a device joins with the key that signs it, and signs nothing before; without a key it goes on unsigned', () => {
  const admission = new Admission('marram-house', [])
  expect(admission.decide(key.sign(said('early')))).toMatchObject({ issues: [{ path: 'signature' }] })
  expect(admission.decide({ ...joined, signature: testKey('another').sign(joined).signature })).toMatchObject({
    verdict: 'refused',
    issues: [{ path: 'signature' }],
  })
  expect(admission.decide(joined).verdict).toBe('accepted')
  expect(admission.decide(note('from the desk')).verdict).toBe('accepted')
})

test('[ADM8] an entry is judged and read by the right clock, and kept as it was written', () => {
  const admission = new Admission('marram-house', [])
  const entry = note('x')
  expect(admission.decide(entry, { clockAheadS: 86_400 })).toEqual({ verdict: 'accepted', entry })
  expect(admission.state.brief.notes[0]?.instant).toBe(new Date(Date.parse(entry.instant) - 86_400_000).toISOString())
})
