import { given } from '@rillmark/casebook/entry/given.ts'
import { prescribedDose, residualAt, residualExpected } from '@rillmark/casebook/fieldwork/neutralizer-check.ts'
import { residualTest } from '@rillmark/casebook/fieldwork/residual-test.ts'
import { type VisitPlan, visitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { visitAt } from '@rillmark/casebook/fieldwork/stops.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Offer } from '../calculators/offer.ts'
import { branchOf } from './branch.ts'

export interface FieldPlace {
  readonly round: string
  /** the stop at hand, with what is to be done there */
  readonly stop?: { readonly id: string; readonly plan: VisitPlan } | undefined
}

/** What one asks on the walk, with what was measured or described filled in. */
export function fieldOffers(state: InvestigationState, place: FieldPlace): readonly Offer[] {
  const supply = state.building.system?.supply
  const { pH, temperatureC } = readAt(state, place)
  return [
    {
      id: 'neutralizer',
      question: 'Does the neutralizer cover the residual, and how much would?',
      start: neutralizerStart(state, place),
    },
    {
      id: 'clearing-time',
      question: 'How long must it run until the pipe is cleared?',
      start: clearingStart(state, place),
    },
    {
      id: 'hypochlorous-fraction',
      question: 'How much of the free chlorine is hypochlorous acid at this pH?',
      start: given({ pH: pH ?? supply?.pH, temperatureC: temperatureC ?? supply?.temperatureC }),
    },
    { id: 'scald-time', question: 'How soon does water this hot scald?', start: {} },
  ]
}

function neutralizerStart(state: InvestigationState, { round, stop }: FieldPlace): object {
  const found = stop === undefined ? undefined : residualAt(state, { round, stop: stop.id })
  const here = found?.reading.kind === 'value' ? found.reading.value : undefined
  const bottle = (stop?.plan ?? firstOf(state, round))?.steps.find(
    ({ step }) => step.kind === 'neutralize' && step.dose?.unit.startsWith('mL') === true,
  )
  const sampleVolumeMl = bottle?.sample?.volumeMl
  const dose =
    bottle === undefined || sampleVolumeMl === undefined ? undefined : prescribedDose(bottle.follows, sampleVolumeMl)
  return given({
    residualMgPerL: here ?? residualExpected(state, round)?.mgPerL,
    residualKind: found?.quantity ?? residualTest(state).quantity,
    sampleVolumeMl,
    ...dose,
  })
}

/** On the way no bottle is at hand: the first stop of the round stands for all. */
function firstOf(state: InvestigationState, round: string): VisitPlan | undefined {
  const first = state.plan.rounds.get(round)?.body.plan.stops[0]
  return first === undefined ? undefined : visitPlan({ round, stop: first.id, state })
}

function clearingStart(state: InvestigationState, { stop }: FieldPlace): object {
  const { system } = state.building
  const component = stop?.plan.stop.component
  const branch = system === undefined || component === undefined ? undefined : branchOf(system, component)
  return branch === undefined ? {} : given({ segments: [branch.segment], flowLPerMin: branch.flowLPerMin })
}

/** The last pH and steady temperature read at the stop. */
function readAt(state: InvestigationState, { round, stop }: FieldPlace): { pH?: number; temperatureC?: number } {
  if (stop === undefined) return {}
  const readings = visitAt(state, { round, stop: stop.id })?.readings ?? []
  const last = (quantity: string): number | undefined => {
    const reading = readings.findLast(({ body }) => body.quantity === quantity)?.body.reading
    return reading?.kind === 'value' ? reading.value : undefined
  }
  return given({ pH: last('ph'), temperatureC: last('cold-temperature') })
}
