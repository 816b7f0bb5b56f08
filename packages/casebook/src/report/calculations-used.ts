import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { definitionInUse } from '../cases/windows.ts'
import { CONFIDENCE_WORDS } from '../findings/confidence.ts'
import { countInterval } from '../findings/count-interval.ts'
import { PLANNING } from '../plan/planning.ts'
import type { ReportContext } from './context.ts'

/** A calculation behind numbers of this report: where they stand, what was put in, the entries it was taken from. */
export interface CalculationUsed {
  readonly calculation: Calculation
  readonly where: readonly string[]
  readonly putIn: readonly string[]
  readonly entries: number[]
}

interface Use {
  readonly id: string
  readonly where: string
  readonly putIn: string
  readonly entries: number[]
}

/** Every calculation this report rests on, once each, in the order its numbers come. */
export function calculationsUsed(context: ReportContext): CalculationUsed[] {
  const uses = [
    ...ofCases(context),
    ...ofPlans(context),
    ...ofFieldwork(context),
    ...ofResults(context),
    ...ofMeasures(context),
    ...ofFollowUp(context),
    ...ofRecord(context),
  ]
  return [...Map.groupBy(uses, ({ id }) => id)].flatMap(([id, same]) => {
    const calculation = findCalculation(id)
    if (calculation === undefined) return []
    return {
      calculation,
      where: [...new Set(same.map(({ where }) => where))],
      putIn: [...new Set(same.map(({ putIn }) => putIn))],
      entries: [...new Set(same.flatMap(({ entries }) => entries))].sort((a, b) => a - b),
    }
  })
}

function ofCases({ state, redacted, numbersOf }: ReportContext): Use[] {
  if (redacted || state.cases.cases.size === 0) return []
  const putIn = `the onset of each case; the window ${definitionInUse(state.cases)}`
  const entries = numbersOf(...state.cases.cases.values())
  return [{ id: 'incubation', where: 'windows and shared places', putIn, entries }]
}

const SUPPOSED = `sensitivity ${PLANNING.sensitivity}, level ${PLANNING.level}`

function ofPlans({ state, numbersOf }: ReportContext): Use[] {
  const plans = [...state.plan.rounds.values()]
  if (plans.length === 0) return []
  const entries = numbersOf(...plans)
  return [
    {
      id: 'detection-probability',
      where: 'what a plan can detect',
      putIn: `outlets described and sampled; shares supposed colonised; sensitivity ${PLANNING.sensitivity}`,
      entries,
    },
    {
      id: 'upper-bound-after-negatives',
      where: 'what could be missed',
      putIn: `outlets described and sampled; ${SUPPOSED}`,
      entries,
    },
  ]
}

function ofFieldwork({ state, numbersOf }: ReportContext): Use[] {
  const neutralized = [...state.fieldwork.samples.values()].filter(({ body }) => body.neutralizer !== undefined)
  if (neutralized.length === 0) return []
  const putIn = 'residual measured; volume, normality and dose of each sample'
  return [{ id: 'neutralizer', where: 'neutralizer against residual', putIn, entries: numbersOf(...neutralized) }]
}

function ofResults({ state, rows, numbersOf }: ReportContext): Use[] {
  if (!rows.some(({ results }) => results.length > 0)) return []
  const shares = {
    id: 'proportion',
    where: 'shares of positive samples',
    putIn: `samples positive and readable; Wilson, ${CONFIDENCE_WORDS}`,
    entries: numbersOf(...state.results.results),
  }
  const counted = state.results.results.filter(({ body }) => countInterval(body) !== undefined)
  if (counted.length === 0) return [shares]
  const putIn = `count and volume examined, as reported; ${CONFIDENCE_WORDS}`
  return [shares, { id: 'plate-count', where: 'limits by counting', putIn, entries: numbersOf(...counted) }]
}

function ofMeasures({ state, numbersOf }: ReportContext): Use[] {
  return [...state.control.measures.values()].flatMap(({ ordered }) => {
    const id = ordered.body.calculation?.id
    if (id === undefined) return []
    return { id, where: 'measure ordered', putIn: 'figures that stand with the measure', entries: numbersOf(ordered) }
  })
}

function ofFollowUp({ state, followUp, numbersOf }: ReportContext): Use[] {
  if (followUp.started === undefined || followUp.schedule === undefined) return []
  const entries = numbersOf(...state.followUp.starts)
  const putIn = 'days remediation was completed; the rule of the criteria set; rounds sampled'
  const dates = { id: 'follow-up-dates', where: 'rounds of follow-up', putIn, entries }
  if (followUp.couldMiss === undefined) return [dates]
  const missed = `outlets described and sampled in negative rounds; ${SUPPOSED}`
  return [dates, { id: 'upper-bound-after-negatives', where: 'what negatives could miss', putIn: missed, entries }]
}

function ofRecord({ state, numbersOf }: ReportContext): Use[] {
  return state.brief.calculations.map((entry) => ({
    id: entry.body.id,
    where: 'put into the record',
    putIn: 'figures that stand with its working',
    entries: numbersOf(entry),
  }))
}
