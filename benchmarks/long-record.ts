import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'

const STOPS = 400

/** A record of the given length in the mix of a large investigation: stops, samples, readings, results, notes and a few amendments. */
export function longRecord(length: number): Entry[] {
  const { make } = entryMaker('marram-house')
  const entries: Entry[] = [
    make('investigation.opened', {
      title: 'Marram House',
      setting: 'hotel',
      openedOn: '2026-03-02',
      reason: 'two cases',
    }),
  ]
  for (let n = 1; entries.length < length; n += 1) {
    const at = { round: 'R1', stop: `S${n % STOPS}` }
    const label = `MH-${n}`
    entries.push(
      make('step.done', { ...at, procedure: 'tap', step: `step-${n % 9}`, seconds: n % 60 }),
      make('sample.collected', {
        ...at,
        label,
        sampleKind: 'bulk-hot',
        circuit: 'hot',
        filter: 'none',
        volumeMl: 1000,
      }),
      make('reading.taken', {
        ...at,
        quantity: 'hot-temperature',
        reading: { kind: 'value', value: 40 + (n % 25), unit: 'Cel' },
      }),
      make('result.reported', {
        label,
        laboratory: 'Quillhaven',
        method: 'culture',
        target: 'Legionella',
        value: { kind: 'count', value: 1 + (n % 90), unit: 'CFU/mL' },
        status: 'final',
      }),
      make('note.written', { text: `note ${n}`, purpose: 'note' }),
    )
    if (n % 20 === 0) entries.push(amendmentOf(entries, make))
  }
  return entries.slice(0, length)
}

function amendmentOf(entries: readonly Entry[], make: ReturnType<typeof entryMaker>['make']): Entry {
  const note = entries.findLast((entry) => entry.kind === 'note.written')
  if (note === undefined) throw new RangeError('Cannot amend because there is no note')
  return make('note.written', { text: 'amended', purpose: 'note' }, { entry: note.id, reason: 'misheard' })
}
