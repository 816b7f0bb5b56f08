import { detectedByAny, detectedOnAverage } from '@rillmark/science/detection/combined-detection.ts'
import { type DetectionInput, detectionProbability } from '@rillmark/science/detection/detection-probability.ts'
import { type Component, isHeater, isOutlet } from '../building/water-system.ts'
import { type PlanContext, warmCircuit } from './plan-context.ts'
import type { Reason } from './plan-file.ts'
import { PLANNING } from './planning.ts'
import { plantWishes } from './wishes-plant.ts'

export const SCENARIO_IDS = ['local-outlets', 'one-riser', 'hot-system', 'cold-supply'] as const
export type ScenarioId = (typeof SCENARIO_IDS)[number]
export type Chances = Readonly<Record<ScenarioId, number>>

/** What a set of points looks at, counted. */
export interface Coverage {
  outlets: number
  warm: number
  cold: number
  hotPlant: number
  coldPlant: number
  byRiser: Map<string, number>
}

export interface CoveredPoint {
  readonly component: Component
  readonly reasons: readonly Reason[]
}

/** Chance, for each way the building might be colonised, that a set of points shows at least one positive. */
export interface Watch {
  readonly totals: Coverage
  cover: (points: readonly CoveredPoint[]) => Coverage
  /** the same coverage with one more point */
  with: (coverage: Coverage, point: CoveredPoint) => Coverage
  chances: (coverage: Coverage) => Chances
  /** chance by riser, for the scenario of one colonised riser */
  riserChance: (riser: string, sampled: number) => number
  readonly sensitivity: number
}

export function watch(context: PlanContext): Watch {
  const sensitivity = context.input.sensitivity ?? PLANNING.sensitivity
  const plant = plantWishes(context)
  const allHot = plant.filter(({ reason }) => reason.obligation !== 'entry').length
  const allCold = plant.length - allHot
  const add = adder(context)
  const empty = (): Coverage => ({ outlets: 0, warm: 0, cold: 0, hotPlant: 0, coldPlant: 0, byRiser: new Map() })
  const cover = (points: readonly CoveredPoint[]): Coverage => points.reduce(add, empty())
  const totals = cover(context.outlets.map((component) => ({ component, reasons: [] })))
  const chance = remembered()
  const riserChance = (riser: string, sampled: number): number =>
    chance({ outlets: totals.byRiser.get(riser) ?? 0, sampled, share: PLANNING.riserShare, sensitivity })
  const chances = (coverage: Coverage): Chances => {
    const risers = [...totals.byRiser.keys()]
    const ofRisers = risers.map((riser) => ({
      chance: riserChance(riser, coverage.byRiser.get(riser) ?? 0),
      weight: 1,
    }))
    const hot = chance({ outlets: totals.warm, sampled: coverage.warm, share: PLANNING.hotShare, sensitivity })
    const cold = chance({ outlets: totals.cold, sampled: coverage.cold, share: PLANNING.coldShare, sensitivity })
    return {
      'local-outlets': chance({
        outlets: totals.outlets,
        sampled: coverage.outlets,
        share: PLANNING.localShare,
        sensitivity,
      }),
      'one-riser': detectedOnAverage(ofRisers) ?? 0,
      'hot-system': detectedByAny([hot, lookAt(coverage.hotPlant, allHot)]),
      'cold-supply': detectedByAny([cold, lookAt(coverage.coldPlant, allCold)]),
    }
  }
  /** All plant points together count as one look: they share the same water, and heater water can suppress culture. */
  const lookAt = (sampled: number, all: number): number =>
    all === 0 ? 0 : detectionProbability({ outlets: all, colonised: 1, sampled: Math.min(sampled, all), sensitivity })
  const withOne = (coverage: Coverage, point: CoveredPoint): Coverage =>
    add({ ...coverage, byRiser: new Map(coverage.byRiser) }, point)
  return { totals, cover, with: withOne, chances, riserChance, sensitivity }
}

function adder(context: PlanContext): (coverage: Coverage, point: CoveredPoint) => Coverage {
  return (coverage, { component, reasons }) => {
    const isReturn = reasons.some(({ obligation }) => obligation === 'return')
    if (isReturn || isHeater(component) || component.kind === 'drain-valve') coverage.hotPlant += 1
    else if (component.kind === 'supply-entry' || component.kind === 'cold-tank' || component.kind === 'treatment')
      coverage.coldPlant += 1
    if (!isOutlet(component)) return coverage
    coverage.outlets += 1
    if (warmCircuit(context, component) === undefined) coverage.cold += 1
    else coverage.warm += 1
    const { riser } = component
    if (riser !== undefined) coverage.byRiser.set(riser, (coverage.byRiser.get(riser) ?? 0) + 1)
    return coverage
  }
}

/** How many outlets a scenario supposes colonised: its share of them, and at least one. */
export const supposedColonised = (outlets: number, share: number): number => Math.max(1, Math.round(outlets * share))

interface Share {
  outlets: number
  sampled: number
  share: number
  sensitivity: number
}

/** Detection probabilities remembered: riser after riser asks the same question. */
function remembered(): (question: Share) => number {
  const known = new Map<string, number>()
  return ({ outlets, sampled, share, sensitivity }) => {
    if (outlets === 0 || sampled === 0) return 0
    const key = `${outlets}/${sampled}/${share}`
    const before = known.get(key)
    if (before !== undefined) return before
    const question: DetectionInput = {
      outlets,
      sampled,
      colonised: supposedColonised(outlets, share),
      sensitivity,
    }
    const answer = detectionProbability(question)
    known.set(key, answer)
    return answer
  }
}

const WORDS: Readonly<Record<ScenarioId, string>> = {
  'local-outlets': 'A few outlets: 1 in 10 is colonised, wherever they are',
  'one-riser': 'One riser: half of its outlets are colonised, any riser as likely as another',
  'hot-system': 'The hot system: heaters and returns, and 3 in 10 hot outlets',
  'cold-supply': 'The cold supply: the water as it enters, and 1 in 10 of the outlets that have only cold',
}

export const scenarioWords = (id: ScenarioId): string => WORDS[id]
