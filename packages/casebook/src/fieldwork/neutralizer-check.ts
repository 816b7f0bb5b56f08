import { doseOfVolumeMl } from '@rillmark/science/chlorine/dose-per-litre.ts'
import { type Neutralizer, neutralizer } from '@rillmark/science/chlorine/neutralizer.ts'
import type { BodyOf } from '../entry/kinds.ts'
import type { Procedure } from '../procedures/procedure.ts'
import { localDate } from '../units/local-time.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { isResidual } from './instruments.ts'
import type { ReadingValue } from './kinds.ts'
import { residualTest } from './residual-test.ts'
import { type StopAt, visitAt } from './stops.ts'

export type Dose = NonNullable<BodyOf<'sample.collected'>['neutralizer']>

export interface NeutralizerVerdict {
  /** residual the dose covers, one electron a thiosulfate */
  readonly capacityMgPerL: number
  /** `not known`: nothing measured, or measured only as a limit on the wrong side */
  readonly covers: 'covered' | 'short' | 'not known'
  /** the dose the measured residual needs; at least that for a residual above the instrument's range */
  readonly requiredVolumeMl: number | undefined
  /** the lot's date was over on the day */
  readonly expired: boolean
}

/** Whether the neutralizer in a bottle covers a residual, and how much would (mL of the same solution). */
export function neutralizerCheck(of: {
  dose: Dose
  sampleVolumeMl: number
  residual: ReadingValue | undefined
  residualKind: 'free-chlorine' | 'total-chlorine'
  /** the day, for the lot's date */
  on: string
}): NeutralizerVerdict {
  const { dose, residual } = of
  const measured = residual === undefined ? 0 : residual.kind === 'value' ? residual.value : residual.limit
  const worked = neutralizer({
    residualMgPerL: Math.max(0, measured),
    residualKind: of.residualKind,
    sampleVolumeMl: of.sampleVolumeMl,
    solutionNormality: dose.solutionNormality,
    solutionVolumeMl: dose.solutionVolumeMl,
  })
  return {
    capacityMgPerL: worked.capacityMgPerL,
    covers: coversOf(residual, worked),
    requiredVolumeMl: residual === undefined ? undefined : worked.requiredVolumeMl,
    expired: dose.expiresOn !== undefined && dose.expiresOn < of.on,
  }
}

function coversOf(residual: ReadingValue | undefined, { covered }: Neutralizer): NeutralizerVerdict['covers'] {
  if (residual === undefined) return 'not known'
  if (covered) return residual.kind === 'above' ? 'not known' : 'covered'
  return residual.kind === 'below' ? 'not known' : 'short'
}

/** The check of a collected sample against the residual measured at its stop; undefined where no neutralizer was recorded. */
export function neutralizerOf(state: InvestigationState, label: string): NeutralizerVerdict | undefined {
  const sample = state.fieldwork.samples.get(label)
  const dose = sample?.body.neutralizer
  const sampleVolumeMl = sample?.body.volumeMl
  if (sample === undefined || dose === undefined || sampleVolumeMl === undefined) return undefined
  const residual = residualAt(state, sample.body)
  return neutralizerCheck({
    dose,
    sampleVolumeMl,
    residual: residual?.reading,
    residualKind: residual?.quantity ?? residualTest(state).quantity,
    on: localDate(sample),
  })
}

export interface ResidualFound {
  readonly reading: ReadingValue
  readonly quantity: 'free-chlorine' | 'total-chlorine'
}

/** The last residual measured at a stop, by the test that fits where there are two. */
export function residualAt(state: InvestigationState, at: StopAt): ResidualFound | undefined {
  const fitting = residualTest(state).quantity
  const readings = visitAt(state, at)?.readings.filter(({ body }) => isResidual(body.quantity)) ?? []
  const found = (readings.findLast(({ body }) => body.quantity === fitting) ?? readings.at(-1))?.body
  return found !== undefined && isResidual(found.quantity)
    ? { reading: found.reading, quantity: found.quantity }
    : undefined
}

export interface ResidualExpected {
  readonly mgPerL: number
  readonly from: 'measured in this round' | 'described supply'
}

/** What residual to dose for before it is measured here: the highest of the round so far, else that of the described supply. */
export function residualExpected(state: InvestigationState, round: string): ResidualExpected | undefined {
  const measured = state.fieldwork.readings.flatMap(({ body: { quantity, reading, round: of } }) =>
    of === round && isResidual(quantity) && reading.kind !== 'below'
      ? [reading.kind === 'value' ? reading.value : reading.limit]
      : [],
  )
  if (measured.length > 0) return { mgPerL: Math.max(...measured), from: 'measured in this round' }
  const described = state.building.system?.supply.disinfectant.residualMgPerL
  return described === undefined ? undefined : { mgPerL: described, from: 'described supply' }
}

/** The dose a procedure prescribes for a volume: its solution's normality and the millilitres for that many litres. */
export function prescribedDose(
  procedure: Procedure,
  volumeMl: number,
): Pick<Dose, 'solutionNormality' | 'solutionVolumeMl'> | undefined {
  const dose = procedure.steps.find((step) => step.dose?.unit.startsWith('mL') === true)?.dose?.value
  const normality = procedure.neutralizer?.normality.value
  if (typeof dose !== 'number' || typeof normality !== 'number') return undefined
  return { solutionNormality: normality, solutionVolumeMl: doseOfVolumeMl({ mlPerL: dose, volumeMl }) }
}
