// Deriving the state of a long record, beside the peer nobody can do without: parsing the same bytes as JSON.
import { Admission } from '@rillmark/casebook/ledger/admission.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { longRecord } from './long-record.ts'
import { type Measurement, medianMs } from './measure.ts'

const ENTRIES = 20_000
const ADDED = 500

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
  ]
}

function addOneMs(entries: ReturnType<typeof longRecord>): number {
  const admission = new Admission('marram-house', entries)
  const { make } = entryMaker('marram-house', { device: 'phone-1' })
  const began = performance.now()
  for (let n = 0; n < ADDED; n += 1) admission.decide(make('note.written', { text: `more ${n}`, purpose: 'note' }))
  return (performance.now() - began) / ADDED
}
