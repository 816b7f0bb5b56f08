import type { Entry } from '../entry/entry.ts'
import type { BodyOf } from '../entry/kinds.ts'
import { addDays } from '@rillmark/science/calendar/iso-date.ts'
import type { Stop } from '../plan/plan-file.ts'
import { entryMaker } from '../testing/entry-maker.ts'

type Value = BodyOf<'result.reported'>['value']
type SampleKind = BodyOf<'sample.collected'>['sampleKind']

export const NEGATIVE: Value = { kind: 'not-detected', volumeMl: 1000 }
export const count = (cfuPerMl: number): Value => ({ kind: 'count', value: cfuPerMl, unit: 'CFU/mL' })
export const OVERGROWN: Value = { kind: 'overgrown' }

const stopOf = (id: string, sample: Stop['samples'][number]): Stop => ({
  id,
  title: `outlet ${id}`,
  samples: [sample],
  reasons: [{ obligation: 'asked for', text: 'a fixture', evidence: [] }],
  rank: 1,
  minutes: 10,
})
const bulkStop = (label: string): Stop =>
  stopOf(label, { sampleKind: 'bulk-hot', procedure: 'tap', circuit: 'hot', label })
const BLANK_STOP = stopOf('blank', { sampleKind: 'field-blank', procedure: 'field-blank', label: 'BLANK' })

/** Writes adopted rounds, their samples and results for tests; every day begins a desk of its own, so times follow the days given. */
export function roundWriter() {
  let desks = 0
  const on = (date: string) =>
    entryMaker('marram-house', { device: `desk-${(desks += 1)}`, startAt: `${date}T09:00:00.000Z` }).make

  const adopted = (round: string, purpose: 'initial' | 'follow-up' = 'follow-up'): Entry =>
    planOf({ round, purpose, stops: [] })
  /** A follow-up round with a labelled bulk sample at each stop, and its blank. */
  const planned = (round: string, labels: readonly string[]): Entry =>
    planOf({ round, purpose: 'follow-up', stops: [...labels.map(bulkStop), BLANK_STOP] })
  const planOf = ({ round, purpose, stops }: Pick<BodyOf<'plan.adopted'>, 'round' | 'purpose'> & { stops: Stop[] }) =>
    on('2026-01-01')('plan.adopted', {
      round,
      purpose,
      teams: [],
      plan: {
        format: 'rillmark/plan@1',
        system: 'Marram House',
        budget: { samples: 10 },
        stops,
        leftOut: [],
        scenarios: [],
        couldHide: [],
        totals: { samples: 0, outlets: 0, minutes: 0, hoursPerTeam: 0 },
      },
    })
  const sample = (at: {
    date: string
    round: string
    label: string
    component?: string
    sampleKind?: SampleKind
  }): Entry =>
    on(at.date)('sample.collected', {
      round: at.round,
      stop: at.label,
      label: at.label,
      sampleKind: at.sampleKind ?? 'bulk-hot',
      component: at.component ?? `outlet-${at.label}`,
      filter: 'none',
    })
  const result = (
    label: string,
    value: Value,
    more: Partial<BodyOf<'result.reported'>> & { date?: string } = {},
  ): Entry => {
    const { date = '2026-12-01', ...body } = more
    return on(date)('result.reported', {
      label,
      laboratory: 'Quillhaven Water Laboratory',
      method: 'culture',
      target: 'Legionella',
      value,
      status: 'final',
      ...body,
    })
  }
  /** A whole follow-up round of one outlet, with its result. */
  const round = (date: string, { code, value }: { code: string; value?: Value }): Entry[] => [
    adopted(code),
    sample({ date, round: code, label: `L-${code}` }),
    ...(value === undefined ? [] : [result(`L-${code}`, value)]),
  ]
  const started = (remediationCompletedOn: string, date = addDays(remediationCompletedOn, 1)): Entry =>
    on(date)('follow-up.started', { remediationCompletedOn, criteria: 'us-cdc', version: '1' })
  return { on, adopted, planned, sample, result, round, started }
}
