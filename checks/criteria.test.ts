import { describe, expect, it } from 'vitest'
import { findCriteriaSet } from '@rillmark/casebook/criteria/criteria-sets.ts'
import { judge } from '@rillmark/casebook/criteria/judge.ts'
import { followUpSchedule } from '@rillmark/science/follow-up/schedule.ts'
import type { ConcentrationUnit } from '@rillmark/casebook/units/quantity.ts'

interface Row {
  readonly set: string
  readonly scaleId?: string
  readonly value: number
  readonly unit: ConcentrationUnit
  readonly want: string
  readonly from: string
}

const CDC = 'US CDC, Legionella Control Toolkit, Figure 1: seen'
const TRINKWV = 'Trinkwasserverordnung 2023, section 51(1): seen'
const W551 = 'DVGW W 551, as restated by a drinking-water laboratory: seen, secondary'
const FRANCE = 'Arrêté of 1 February 2010, article 4: seen'
const EU = 'Directive (EU) 2020/2184, Annex I Part D, number as restated: seen, secondary'
const NL = 'Netherlands regulation on Legionella prevention, text of 2011: seen'

const ROWS: readonly Row[] = [
  { set: 'us-cdc', value: 0.9, unit: 'CFU/mL', want: 'well-controlled', from: CDC },
  { set: 'us-cdc', value: 1.0, unit: 'CFU/mL', want: 'poorly-controlled', from: CDC },
  { set: 'us-cdc', value: 9.9, unit: 'CFU/mL', want: 'poorly-controlled', from: CDC },
  { set: 'us-cdc', value: 10, unit: 'CFU/mL', want: 'uncontrolled', from: CDC },
  { set: 'us-cdc', scaleId: 'non-potable', value: 9, unit: 'CFU/mL', want: 'well-controlled', from: CDC },
  { set: 'us-cdc', scaleId: 'non-potable', value: 10, unit: 'CFU/mL', want: 'poorly-controlled', from: CDC },
  { set: 'us-cdc', scaleId: 'non-potable', value: 99, unit: 'CFU/mL', want: 'poorly-controlled', from: CDC },
  { set: 'us-cdc', scaleId: 'non-potable', value: 100, unit: 'CFU/mL', want: 'uncontrolled', from: CDC },
  { set: 'de-trinkwv', value: 99, unit: 'CFU/100 mL', want: 'below-action-value', from: TRINKWV },
  { set: 'de-trinkwv', value: 100, unit: 'CFU/100 mL', want: 'action-value-reached', from: TRINKWV },
  { set: 'de-trinkwv', scaleId: 'w551', value: 100, unit: 'CFU/100 mL', want: 'none', from: W551 },
  { set: 'de-trinkwv', scaleId: 'w551', value: 1000, unit: 'CFU/100 mL', want: 'medium', from: W551 },
  { set: 'de-trinkwv', scaleId: 'w551', value: 1001, unit: 'CFU/100 mL', want: 'high', from: W551 },
  { set: 'de-trinkwv', scaleId: 'w551', value: 10_001, unit: 'CFU/100 mL', want: 'extremely-high', from: W551 },
  { set: 'fr-2010', value: 999, unit: 'CFU/L', want: 'target-kept', from: FRANCE },
  { set: 'fr-2010', value: 1000, unit: 'CFU/L', want: 'target-missed', from: FRANCE },
  { set: 'fr-2010', scaleId: 'vulnerable-patients', value: 10, unit: 'CFU/L', want: 'target-missed', from: FRANCE },
  { set: 'eu-2020-2184', value: 999, unit: 'CFU/L', want: 'below-value', from: EU },
  { set: 'eu-2020-2184', value: 1000, unit: 'CFU/L', want: 'value-reached', from: EU },
  { set: 'nl-2011', value: 99, unit: 'CFU/L', want: 'below-limit', from: NL },
  { set: 'nl-2011', value: 101, unit: 'CFU/L', want: 'limit-reached', from: NL },
]

describe('criteria against the published limits', () => {
  it.each(ROWS)('$set $scaleId: $value $unit is $want ($from)', ({ set, scaleId, value, unit, want }) => {
    expect(bandOf({ set, value, unit, ...(scaleId === undefined ? {} : { scaleId }) })).toBe(want)
  })

  // One and the same concentration, written in the unit of each jurisdiction, meets the line of each (computed from the definitions).
  it.each(['CFU/mL', 'CFU/100 mL', 'CFU/L'] as const)(
    'the lines of CDC, Germany, France and the EU are one concentration, here in %s',
    (unit) => {
      const value = { 'CFU/mL': 1, 'CFU/100 mL': 100, 'CFU/L': 1000 }[unit]
      const bands = ['us-cdc', 'de-trinkwv', 'fr-2010', 'eu-2020-2184'].map((set) => bandOf({ set, value, unit }))
      expect(bands).toEqual(['poorly-controlled', 'action-value-reached', 'target-missed', 'value-reached'])
    },
  )
})

describe('follow-up', () => {
  it('every 2 weeks for 3 months, then monthly for 3 months, makes 6 + 3 rounds over 6 months (CDC guidance: memory; count: computed)', () => {
    const rule = findCriteriaSet('us-cdc')?.followUp?.rule
    if (rule === undefined) throw new Error('the CDC set has a follow-up rule')
    const { rounds } = followUpSchedule({ rule, remediationCompletedOn: '2026-03-02' })
    expect(rounds.filter(({ phase }) => phase === 1)).toHaveLength(6)
    expect(rounds.filter(({ phase }) => phase === 2).map(({ dueOn }) => dueOn)).toEqual([
      '2026-07-02',
      '2026-08-02',
      '2026-09-02',
    ])
    expect(findCriteriaSet('us-cdc')?.followUp?.known).toBe('memory')
  })

  it('New York: again no sooner than 7 days and no later than 4 weeks (10 NYCRR Appendix 4-B: memory)', () => {
    const rule = findCriteriaSet('us-ny-facilities')?.followUp?.rule
    if (rule === undefined) throw new Error('the New York set has a follow-up rule')
    const [round] = followUpSchedule({ rule, remediationCompletedOn: '2026-03-02' }).rounds
    expect(round).toMatchObject({ earliestOn: '2026-03-09', latestOn: '2026-03-30' })
  })
})

function bandOf(row: { set: string; scaleId?: string; value: number; unit: ConcentrationUnit }): string {
  const criteria = findCriteriaSet(row.set)
  if (criteria === undefined) throw new Error(`no criteria set ${row.set}`)
  const { value, unit, scaleId } = row
  const judgement = judge({
    criteria,
    sampleKind: 'bulk-hot',
    value: { kind: 'count', value, unit },
    species: 'Legionella pneumophila',
    ...(scaleId === undefined ? {} : { scaleId }),
  })
  return judgement.kind === 'band' ? judgement.band.id : judgement.kind
}
