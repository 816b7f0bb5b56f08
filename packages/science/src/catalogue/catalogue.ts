import { censoredSummaryCalculation } from '../censored/censored-summary.ts'
import { dechlorinationCalculation } from '../chlorine/dechlorination.ts'
import { hypochlorousFractionCalculation } from '../chlorine/hypochlorous-fraction.ts'
import { neutralizerCalculation } from '../chlorine/neutralizer.ts'
import { residualDecayCalculation } from '../chlorine/residual-decay.ts'
import { shockDoseCalculation } from '../chlorine/shock-dose.ts'
import { plateCountCalculation } from '../culture/plate-count.ts'
import { detectionProbabilityCalculation } from '../detection/detection-probability.ts'
import { outletsToSampleCalculation } from '../detection/outlets-to-sample.ts'
import { upperBoundAfterNegativesCalculation } from '../detection/upper-bound-after-negatives.ts'
import { followUpDatesCalculation } from '../follow-up/follow-up-dates.ts'
import { loopTemperatureCalculation } from '../heat/loop-temperature.ts'
import { mixedTemperatureCalculation } from '../heat/mixed-temperature.ts'
import { pipeHeatLossCalculation } from '../heat/pipe-heat-loss.ts'
import { standingCoolingCalculation } from '../heat/standing-cooling.ts'
import { disinfectantContactCalculation } from '../inactivation/disinfectant-contact.ts'
import { heatInactivationCalculation } from '../inactivation/heat-inactivation.ts'
import { exposureTimeCalculation } from '../incubation/exposure-time-calculation.ts'
import { incubationCalculation } from '../incubation/incubation.ts'
import { penalisedLogisticCalculation } from '../logistic/penalised-logistic.ts'
import { clearingTimeCalculation } from '../pipes/clearing-time.ts'
import { pipeVolumeCalculation } from '../pipes/pipe-volume.ts'
import { proportionCalculation } from '../proportions/proportion.ts'
import { mostProbableNumberCalculation } from '../quantal/most-probable-number.ts'
import { showerRiskCalculation } from '../risk/shower-risk.ts'
import { scaldTimeCalculation } from '../scald/scald-time.ts'
import { matchedSetsCalculation } from '../tables/matched-sets.ts'
import { stratifiedTwoByTwoCalculation } from '../tables/stratified-two-by-two.ts'
import { twoByTwoCalculation } from '../tables/two-by-two.ts'
import { alleleDistanceCalculation } from '../typing/allele-distance.ts'
import { discriminationIndexCalculation } from '../typing/discrimination-index.ts'
import { minimumSpanningTreeCalculation } from '../typing/minimum-spanning-tree.ts'
import { type Calculation, cautionsOf, type RunOptions } from './descriptor.ts'
import { issuesFromZod } from './from-zod.ts'
import { describeReceived, type Issue } from './issue.ts'
import type { Source } from './sources.ts'

/** Every calculation, in the order lists show them. To add one, add its line. */
export const calculations: readonly Calculation[] = [
  neutralizerCalculation,
  proportionCalculation,
  outletsToSampleCalculation,
  detectionProbabilityCalculation,
  upperBoundAfterNegativesCalculation,
  pipeVolumeCalculation,
  clearingTimeCalculation,
  pipeHeatLossCalculation,
  standingCoolingCalculation,
  loopTemperatureCalculation,
  mixedTemperatureCalculation,
  shockDoseCalculation,
  dechlorinationCalculation,
  hypochlorousFractionCalculation,
  residualDecayCalculation,
  disinfectantContactCalculation,
  heatInactivationCalculation,
  scaldTimeCalculation,
  showerRiskCalculation,
  plateCountCalculation,
  mostProbableNumberCalculation,
  censoredSummaryCalculation,
  incubationCalculation,
  exposureTimeCalculation,
  twoByTwoCalculation,
  stratifiedTwoByTwoCalculation,
  matchedSetsCalculation,
  penalisedLogisticCalculation,
  alleleDistanceCalculation,
  minimumSpanningTreeCalculation,
  discriminationIndexCalculation,
  followUpDatesCalculation,
]

export interface CalculationRequest extends RunOptions {
  id: unknown
  input: unknown
}

export interface CalculationAnswer {
  result: unknown
  sources: Source[]
  cautions: string[]
}

export interface CalculationRefusal {
  issues: Issue[]
}

/**
 * The descriptor of an id, or nothing where there is none.
 *
 * @param id of a calculation
 * @source none: it computes nothing of the trade
 * @example
 * findCalculation('proportion').title // => "Positivity with its interval"
 */
export function findCalculation(id: unknown): Calculation | undefined {
  return calculations.find((calculation) => calculation.id === id)
}

/**
 * Runs a calculation on data a user gave: the result with its sources and cautions, or everything wrong with the data.
 * The one way in for the command, the API and the pages.
 *
 * @param request id of the calculation and its input, both unchecked; progress is told how far a long run is
 * @source none: it computes nothing of the trade
 * @example
 * runCalculation({ id: 'proportion', input: { positive: 0, total: 20, method: 'exact' } }).result.interval.lower // => 0
 */
export function runCalculation({ id, input, progress }: CalculationRequest): CalculationAnswer | CalculationRefusal {
  const calculation = findCalculation(id)
  if (calculation === undefined) {
    const expected = `one of ${calculations.map((each) => each.id).join(', ')}`
    return { issues: [{ path: 'id', expected, received: describeReceived(id) }] }
  }
  const checked = calculation.input.safeParse(input)
  if (!checked.success) return { issues: issuesFromZod(checked.error, input) }
  const result = calculation.run(checked.data, { progress })
  const sound = calculation.output.safeParse(result)
  if (!sound.success) return { issues: issuesFromZod(sound.error, result).map(outOfReach) }
  return { result, sources: calculation.sources, cautions: cautionsOf(calculation, { input: checked.data, result }) }
}

/** A run expected to take longer than this is made beside what others wait for: in a worker, with its progress shown. */
const LONG_RUN_MS = 200

/**
 * Whether a run is expected to take so long that nobody should wait for it without a sign. Quick itself, whatever the input.
 *
 * @param request id of the calculation and its input, both unchecked
 * @source none: it computes nothing of the trade
 * @example
 * isLongRun({ id: 'proportion', input: {} }) // => false
 */
export function isLongRun({ id, input }: CalculationRequest): boolean {
  return (findCalculation(id)?.costMs?.(input) ?? 0) > LONG_RUN_MS
}

/** Inputs each within range but together beyond what a number holds. */
function outOfReach({ path, received }: Issue): Issue {
  return { path: '', expected: `inputs for which ${path} is finite`, received }
}
