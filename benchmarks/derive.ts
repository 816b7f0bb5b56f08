// Deriving the state of a long record, beside the peer nobody can do without: parsing the same bytes as JSON.
import { Admission } from '@rillmark/casebook/ledger/admission.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { door } from '@rillmark/casebook/contests/contests.fixture.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { longRecord } from './long-record.ts'
import { type Measurement, medianMs } from './measure.ts'

const ENTRIES = 20_000
const ADDED = 500
const CONTESTS = 100

export async function measure(): Promise<Measurement[]> {
  const entries = longRecord(ENTRIES)
  const text = JSON.stringify(entries)
  const deriveMs = await medianMs(() => derive('marram-house', entries))
  const parseMs = await medianMs(() => JSON.parse(text))
  return [
    {
      what: `derive ${ENTRIES} entries`,
      value: deriveMs,
      unit: 'ms',
      budget: 300,
      ratio: { to: 'JSON.parse of the same entries', times: deriveMs / parseMs },
    },
    { what: `check and add one entry to ${ENTRIES}`, value: addOneMs(entries), unit: 'ms', budget: 5 },
    {
      what: `keep a second account in ${ENTRIES / 2} entries, half of them`,
      value: contestMs(),
      unit: 'ms',
      budget: 20,
    },
  ]
}

function addOneMs(entries: ReturnType<typeof longRecord>): number {
  const admission = new Admission('marram-house', entries)
  const { make } = entryMaker('marram-house', { device: 'phone-1' })
  const began = performance.now()
  for (let n = 0; n < ADDED; n += 1) admission.decide(make('note.written', { text: `more ${n}`, purpose: 'note' }))
  return (performance.now() - began) / ADDED
}

/** What two devices tell of one case or one visit, each without having seen the later half of the record. */
function contestMs(): number {
  const { make: desk } = entryMaker('marram-house', { device: 'desk-1' })
  const { make: phone } = entryMaker('marram-house', { device: 'phone-1' })
  const told = (make: typeof desk, n: number) =>
    n % 2 === 0
      ? make('case.recorded', { code: `K${n}`, classification: 'probable', link: 'not judged', isolate: 'not known' })
      : make('sample.collected', { round: 'R1', stop: `S${n}`, label: `K${n}`, sampleKind: 'bulk-hot', filter: 'none' })
  const numbers = Array.from({ length: CONTESTS }, (_, n) => n)
  const at = door([...longRecord(ENTRIES / 2 - CONTESTS), ...numbers.map((n) => told(desk, n))])
  const times = numbers.map((n) => {
    const second = { ...told(phone, n), seen: ENTRIES / 4 }
    const began = performance.now()
    const { verdict } = at.decide(second)
    if (verdict !== 'contested') throw new Error(`Cannot measure a contest: the second account was ${verdict}`)
    return performance.now() - began
  })
  return times.toSorted((a, b) => a - b)[CONTESTS / 2] ?? Number.NaN
}
