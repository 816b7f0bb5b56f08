// Entries of every kind with bodies damaged anywhere: refused with issues, or so sound that everything derived from them still works.
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type Kind, KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { Admission } from '@rillmark/casebook/ledger/admission.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { asRead } from '@rillmark/casebook/chain/entries-of.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { demoEntries } from '../../demo/build.ts'
import { signedByDevice } from '../../demo/signing.ts'
import { everythingDerived } from './everything-derived.ts'
import { mutated } from './mutated.ts'

const INVESTIGATION = 'marram-house'
const demo = await demoEntries()
const entries = [...demo, ...(await twoAccounts(demo))]

/** The first entry of each kind in the worked example and what follows it, with those before it. */
const firsts = (Object.keys(KINDS) as Kind[]).flatMap((kind) => {
  const index = entries.findIndex((entry) => entry.kind === kind)
  const sound = entries[index]
  return sound === undefined ? [] : [{ kind, sound, before: entries.slice(0, index) }]
})

/** A device with a key that is revoked, a reading another device gives otherwise, and how that is settled. */
async function twoAccounts(before: readonly Entry[]): Promise<Entry[]> {
  const [phone, server] = ['phone', 'server'].map((device) => entryMaker(INVESTIGATION, { device }).make)
  const first = before.find((entry) => entry.kind === 'case.recorded')
  if (first?.kind !== 'case.recorded' || phone === undefined || server === undefined) throw new RangeError('no case')
  const second = phone('case.recorded', { ...first.body, classification: 'suspected' })
  const issues = [{ path: 'body.code', expected: 'a code no other case has', received: first.body.code }]
  return [
    signed(phone('device.joined', { name: 'Phone', role: 'sampler', key: testKey('phone').key })),
    signed(server('device.joined', { name: 'Server', role: 'server', key: testKey('server').key })),
    signed(server('entry.contested', { entry: signed(second), issues, against: [first.id] })),
    entryMaker(INVESTIGATION, { device: 'later' }).make('contest.settled', {
      contested: second.id,
      decision: 'second stands',
      reason: 'the phone was there',
    }),
    signed(server('device.revoked', { device: 'phone', reason: 'left on a train' })),
  ]
}

/** Signed anew by its device, where that has a key: damage is judged for what it says. */
function signed<E extends Entry>(entry: E): E {
  const { signature: _, ...unsigned } = entry
  if (entry.device.startsWith('demo-')) return signedByDevice(entry)
  return ['phone', 'server'].includes(entry.device) ? (testKey(entry.device).sign(unsigned) as E) : entry
}

/** What has no canonical JSON can't be signed, and is sent as it is. */
function signable(entry: object): object {
  try {
    return signed(entry as Entry)
  } catch {
    return entry
  }
}

const RUNS = 80
/** Following up on one takes as long as opening an investigation. */
const MOST_FOLLOWED = 5

test('the worked example has two kinds of entries in three', () => {
  expect(firsts.length).toBeGreaterThan((Object.keys(KINDS).length * 2) / 3)
})

test.each(Object.keys(KINDS))('[REC27] %s with any body at all is refused and never throws', (kind) => {
  const [envelope] = entries
  const judge = new Admission(INVESTIGATION, entries)
  const body = fc.oneof(fc.anything(), mutated({ text: 'x', code: 'R1', label: 'x', at: '2026-05-12', places: [{}] }))
  fc.assert(
    fc.property(body, (given) => {
      const id = '00000000-0000-8000-8000-ffffffffffff'
      const candidate = signable({ ...envelope, id, kind, deviceSequence: 1_000_000, body: given })
      expect(judge.decide(candidate).verdict).toBe('refused')
    }),
    { numRuns: RUNS },
  )
})

test.each(firsts)(
  '[REC27] $kind damaged anywhere is refused, or leaves a record everything works with',
  async ({ sound, before }) => {
    const taken: Entry[] = []
    let judge = new Admission(INVESTIGATION, before)
    fc.assert(
      fc.property(mutated(sound.body), (body) => {
        const decision = judge.decide(signable({ ...sound, body }))
        expect(['accepted', 'refused']).toContain(decision.verdict)
        if (decision.verdict !== 'accepted') return
        // what is signed is kept as it was written; everything is derived from it as it is read
        taken.push(asRead(decision.entry))
        judge = new Admission(INVESTIGATION, before)
      }),
      { numRuns: RUNS },
    )
    for (const entry of taken.slice(0, MOST_FOLLOWED))
      await everythingDerived(INVESTIGATION, [...before, entry]).catch((error: Error) => {
        throw new Error(`${error.message} after ${JSON.stringify(entry.body).slice(0, 1500)}`, { cause: error })
      })
  },
)

// found by the above: a year the calendar can't be reckoned with passed the schema and broke every view of the record for good
test.each(['0000-01-01', '0099-12-31', '1899-12-31', '2200-01-01', '9999-12-31'])(
  '[REC27] no entry has the date %s',
  (date) => {
    const started = firsts.find(({ kind }) => kind === 'follow-up.started')
    const judge = new Admission(INVESTIGATION, started?.before ?? [])
    const body = { ...started?.sound.body, remediationCompletedOn: date }
    expect(judge.decide(signable({ ...started?.sound, body }))).toMatchObject({
      verdict: 'refused',
      issues: [{ path: 'body.remediationCompletedOn', expected: 'a date from 1900 to 2199' }],
    })
    expect(judge.decide(signable({ ...started?.sound, instant: `${date}T00:00:00.000Z` })).verdict).toBe('refused')
  },
)
