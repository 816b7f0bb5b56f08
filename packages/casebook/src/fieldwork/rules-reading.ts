import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { localDate } from '../units/local-time.ts'
import type { Rule } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { FIELDWORK } from './figures.ts'
import { calibrationOver, type Instrument, isResidual, UNIT_OF } from './instruments.ts'
import type { ReadingValue } from './kinds.ts'
import { hotTooEarly } from './order.ts'
import { instrumentRange } from './reading-words.ts'
import { residualTest, tooCoarse } from './residual-test.ts'
import { visitAt } from './stops.ts'

const numberOf = (reading: ReadingValue): number => (reading.kind === 'value' ? reading.value : reading.limit)

/** A reading is in its quantity's unit, from an instrument that measures that quantity, inside its range. */
export const instrumentFits: Rule<'reading.taken'> = ({ body }, { state }) => {
  const { quantity, reading } = body
  const unit = UNIT_OF[quantity]
  if (reading.unit !== unit) return [issue('body.reading.unit', { expected: unit, received: reading.unit })]
  const instrument = instrumentOf(state, body)
  if (instrument === undefined)
    return body.instrument === undefined
      ? []
      : [issue('body.instrument', { expected: 'the code of a registered instrument', received: body.instrument })]
  if (!instrument.measures.includes(quantity))
    return [
      statedIssue('body.instrument', {
        expected: `an instrument that measures ${quantity}`,
        received: `${instrument.code}, which measures ${instrument.measures.join(', ')}`,
      }),
    ]
  return inRange(instrument, reading)
}

function inRange(instrument: Instrument, reading: ReadingValue): Issue[] {
  const value = numberOf(reading)
  const { code, rangeMin, rangeMax, unit } = instrument
  if (value >= rangeMin && value <= rangeMax) return []
  const path = reading.kind === 'value' ? 'body.reading.value' : 'body.reading.limit'
  return [
    issue(path, {
      expected: `${instrumentRange({ rangeMin, rangeMax, unit })}, the range of ${code}`,
      received: value,
    }),
  ]
}

function instrumentOf(state: InvestigationState, { instrument }: { instrument?: string | undefined }) {
  return instrument === undefined ? undefined : state.fieldwork.instruments.get(instrument)?.body
}

/** An instrument past its calibration is used only when that is on record. */
export const inCalibration: Rule<'reading.taken'> = ({ body, instant, offset }, { state, amends }) => {
  const instrument = instrumentOf(state, body)
  if (instrument === undefined || amends !== undefined) return []
  const over = calibrationOver(instrument, localDate({ instant: body.takenAt ?? instant, offset }))
  const told = visitAt(state, body)?.deviations.some((one) => one.body.reason === 'calibration out of date') ?? false
  if (over === undefined || told) return []
  return [
    statedIssue('body.instrument', {
      expected: 'an instrument in calibration, or a recorded deviation "calibration out of date" first',
      received: `${instrument.code}, due on ${over}`,
    }),
  ]
}

/** The test fits the disinfectant of the described supply; the other test is taken beside it, never in its place. */
export const residualTestFits: Rule<'reading.taken'> = ({ body }, { state, amends }) => {
  if (!isResidual(body.quantity) || amends !== undefined) return []
  const { quantity, reason } = residualTest(state)
  if (body.quantity === quantity) return []
  const beside = visitAt(state, body)?.readings.some((one) => one.body.quantity === quantity) ?? false
  return beside
    ? []
    : [statedIssue('body.quantity', { expected: `${quantity}, because ${reason}`, received: body.quantity })]
}

/** A residual names its kit, and a low one needs a kit fine enough to tell it. */
export const kitIsFineEnough: Rule<'reading.taken'> = ({ body }, { state }) => {
  if (!isResidual(body.quantity)) return []
  const kit = instrumentOf(state, body)
  if (kit === undefined)
    return body.instrument === undefined
      ? [statedIssue('body.instrument', { expected: 'the chlorine kit it was read with' })]
      : []
  const low = body.reading.kind !== 'above' && numberOf(body.reading) < FIELDWORK.lowResidualMgPerL
  const coarse = low ? tooCoarse(kit) : undefined
  if (coarse === undefined) return []
  return [
    statedIssue('body.instrument', {
      expected: `a kit with steps of at most ${FIELDWORK.coarsestStepMgPerL} mg/L`,
      received: `${kit.code}, ${coarse}`,
    }),
  ]
}

/** The hot reading comes last. */
export const hotComesLast: Rule<'reading.taken'> = ({ body }, { state, amends }) => {
  if (body.quantity !== 'hot-temperature' || amends !== undefined) return []
  const early = hotTooEarly(state, body)
  return early === undefined
    ? []
    : [
        statedIssue('body.quantity', {
          expected: 'the hot reading after every sample of the stop, or a recorded deviation "out of order" first',
          received: early,
        }),
      ]
}

/** A curve belongs to a temperature and runs forward in time. */
export const curveRunsForward: Rule<'reading.taken'> = ({ body: { curve, quantity } }) => {
  if (curve === undefined) return []
  if (UNIT_OF[quantity] !== 'Cel') return [issue('body.curve', { expected: 'a temperature', received: quantity })]
  const back = curve.points.findIndex(({ seconds }, at) => at > 0 && seconds <= (curve.points[at - 1]?.seconds ?? -1))
  return back === -1
    ? []
    : [
        issue(`body.curve.points.${back}.seconds`, {
          expected: 'later than the point before it',
          received: curve.points[back]?.seconds,
        }),
      ]
}

export const instrumentIsSound: Rule<'instrument.registered'> = ({ body }) => {
  const issues: Issue[] = []
  if (body.rangeMin >= body.rangeMax)
    issues.push(issue('body.rangeMax', { expected: `more than ${body.rangeMin}`, received: body.rangeMax }))
  const strange = body.measures.filter((quantity) => UNIT_OF[quantity] !== body.unit)
  if (strange.length > 0)
    issues.push(issue('body.measures', { expected: `quantities in ${body.unit}`, received: strange }))
  const { calibratedOn, calibrationDue } = body
  if (calibratedOn !== undefined && calibrationDue !== undefined && calibrationDue < calibratedOn)
    issues.push(issue('body.calibrationDue', { expected: `${calibratedOn} or later`, received: calibrationDue }))
  return issues
}
