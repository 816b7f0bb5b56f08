// Entries of every kind with bodies damaged anywhere: refused with issues, or so sound that everything derived from them still works.
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type Kind, KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { Admission } from '@rillmark/casebook/ledger/admission.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { demoEntries } from '../../demo/build.ts'
import { everythingDerived } from './everything-derived.ts'
import { mutated } from './mutated.ts'

const INVESTIGATION = 'marram-house'
const entries = await demoEntries()

/** The first entry of each kind in the worked example, with those before it. */
const firsts = (Object.keys(KINDS) as Kind[]).flatMap((kind) => {
  const index = entries.findIndex((entry) => entry.kind === kind)
  const sound = entries[index]
  return sound === undefined ? [] : [{ kind, sound, before: entries.slice(0, index) }]
})

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
      const candidate = { ...envelope, id, kind, deviceSequence: 1_000_000, body: given }
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
        const decision = judge.decide({ ...sound, body })
        expect(['accepted', 'refused']).toContain(decision.verdict)
        if (decision.verdict !== 'accepted') return
        taken.push(decision.entry)
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
    expect(judge.decide({ ...started?.sound, body })).toMatchObject({
      verdict: 'refused',
      issues: [{ path: 'body.remediationCompletedOn', expected: 'a date from 1900 to 2199' }],
    })
    expect(judge.decide({ ...started?.sound, instant: `${date}T00:00:00.000Z` }).verdict).toBe('refused')
  },
)
