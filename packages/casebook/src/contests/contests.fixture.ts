import type { Entry } from '../entry/entry.ts'
import { Admission, type Decision } from '../ledger/admission.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { contestEntries } from './write-contest.ts'

export const investigation = 'marram-house'
export const serverKey = testKey('the server')

/** A door that keeps second accounts, with a server whose ids and clock follow from a count. */
export function door(entries: readonly Entry[] = []) {
  let count = 0
  const writer = {
    key: serverKey.key,
    sign: serverKey.signText,
    now: () => '2026-03-02T12:00:00.000Z',
    newId: () => `00000000-0000-8000-9000-${String((count += 1) + entries.length * 1000).padStart(12, '0')}`,
  }
  return new Admission(investigation, entries, { writeContest: (account) => contestEntries(account, writer) })
}

/** What a decision adds to the record. */
export const added = (decision: Decision): readonly Entry[] =>
  decision.verdict === 'accepted' ? [decision.entry] : decision.verdict === 'contested' ? decision.entries : []

/** A device that writes cases: `seen` says how much of the record it held. */
export function writer(device: string) {
  const { make } = entryMaker(investigation, { device })
  const seenBy = <E extends Entry>(entry: E, seen: number): E => ({ ...entry, seen })
  return {
    make,
    aCase: (code: string, { seen, notes }: { seen: number; notes?: string }) =>
      seenBy(
        make('case.recorded', {
          code,
          classification: 'probable',
          link: 'not judged',
          isolate: 'not known',
          ...(notes === undefined ? {} : { notes }),
        }),
        seen,
      ),
    stay: (caseCode: string, { seen }: { seen: number }) =>
      seenBy(
        make('exposure.recorded', { caseCode, place: 'Spa', kind: 'stay', from: '2026-02-01', to: '2026-02-02' }),
        seen,
      ),
    note: (text: string, { seen }: { seen: number }) => seenBy(make('note.written', { text, purpose: 'note' }), seen),
    settled: (contested: string, decision: 'first stands' | 'second stands', { seen = 1000 } = {}) =>
      seenBy(make('contest.settled', { contested, decision, reason: 'asked both' }), seen),
    reading: (value: number, { seen, circuit = 'hot' as const }: { seen: number; circuit?: 'hot' | 'cold' }) =>
      seenBy(
        make('reading.taken', {
          round: 'R1',
          stop: 'S7',
          quantity: 'hot-temperature',
          circuit,
          reading: { kind: 'value', value, unit: 'Cel' },
        }),
        seen,
      ),
    finished: (outcome: 'sampled' | 'partly', { seen }: { seen: number }) =>
      seenBy(make('stop.finished', { round: 'R1', stop: 'S7', outcome, reason: 'x' }), seen),
  }
}
