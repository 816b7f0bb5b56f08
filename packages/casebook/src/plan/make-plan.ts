import { detectedOnAverage } from '@rillmark/science/detection/combined-detection.ts'
import type { Component } from '../building/water-system.ts'
import { couldHide } from './could-hide.ts'
import { type Candidate, candidatesFrom, fitting, labelledAt, stopOf, walkOf } from './fit-budget.ts'
import { because, type PlanContext, planContext, type Wish } from './plan-context.ts'
import type { Addition, Budget, Plan, Stop } from './plan-file.ts'
import type { PlanInput } from './plan-input.ts'
import { PLANNING } from './planning.ts'
import { isLabelled } from './samples-at.ts'
import { type Chances, type Coverage, SCENARIO_IDS, scenarioWords, type Watch, watch } from './scenarios.ts'
import { caseWishes } from './wishes-cases.ts'
import { plantWishes, riserWishes } from './wishes-plant.ts'
import { predictedWishes } from './wishes-predicted.ts'
import { controlWishes, spreadWishes } from './wishes-rest.ts'
import { deviceWishes, weakWishes } from './wishes-weak.ts'

/** How many of the next points are worked out one by one. */
const NEXT_POINTS = 12

/**
 * A sampling plan: the obligatory points of the building and its cases, each with its reasons, in walking order, within the budget;
 * what was left out and what that costs; what the plan can detect and what it could miss.
 *
 * Points are kept in the order of their rank until the budget ends ("greedy by rank"): a larger budget only ever adds points. It is
 * not claimed to be the best plan for the budget.
 */
export function makePlan(input: PlanInput): Plan {
  return fitPlan(preparePlan(input), input.budget)
}

/** Everything about a plan that does not hang on the budget; making it is the slow part. */
export interface PreparedPlan {
  readonly context: PlanContext
  readonly obligatory: readonly Candidate[]
  readonly spread: readonly Candidate[]
  readonly excluded: ReadonlyMap<string, { readonly candidate: Candidate; readonly why: string }>
  readonly watch: Watch
}

export function preparePlan(input: PlanInput): PreparedPlan {
  const context = planContext(input)
  const wishes = obligatoryWishes(context)
  const why = new Map((input.exclude ?? []).map(({ component, text }) => [component, text]))
  const all = candidatesFrom(context, wishes)
  const spread = candidatesFrom(context, spreadWishes(context, wishes))
  const excluded = new Map(
    all.flatMap((candidate) => {
      const text = why.get(candidate.component.id)
      return text === undefined ? [] : [[candidate.component.id, { candidate, why: text }] as const]
    }),
  )
  const stays = ({ component }: Candidate): boolean => !why.has(component.id)
  return { context, obligatory: all.filter(stays), spread: spread.filter(stays), excluded, watch: watch(context) }
}

function obligatoryWishes(context: PlanContext): Wish[] {
  const wishes = [
    ...askedWishes(context),
    ...caseWishes(context),
    ...plantWishes(context),
    ...deviceWishes(context),
    ...riserWishes(context),
    ...weakWishes(context),
    ...predictedWishes(context),
  ]
  return [...wishes, ...controlWishes(context, wishes)]
}

function askedWishes(context: PlanContext): Wish[] {
  return (context.input.asked ?? []).flatMap(({ component, text, entry }): Wish[] => {
    const found: Component | undefined = context.graph.components.get(component)
    if (found === undefined) {
      context.notes.push(`"${component}" was asked for, but the described building has no such point.`)
      return []
    }
    return [
      {
        component: found,
        reason: because('asked for', { text, evidence: entry === undefined ? [component] : [entry] }),
      },
    ]
  })
}

/** The plan within a budget, from what was prepared. */
export function fitPlan(prepared: PreparedPlan, budget: Budget): Plan {
  const context = { ...prepared.context, input: { ...prepared.context.input, budget } }
  const { obligatory, spread, watch } = prepared
  const cut = foundFirst(context, obligatory)
  const ordered = [...cut, ...spread]
  const count = fitting(context, ordered)
  const inPlan = new Set(ordered.slice(0, count))
  const kept = [...obligatory, ...spread].filter((candidate) => inPlan.has(candidate))
  const { stops } = walkOf(context, kept)
  const coverage = watch.cover(kept)
  const next = ordered.slice(count, count + NEXT_POINTS)
  const dropped = cut.slice(count)
  return {
    format: 'rillmark/plan@1',
    system: context.input.system.name.slice(0, 120),
    budget,
    stops: [...stops],
    leftOut: leftOut({ context, prepared, coverage, dropped }),
    ...judgeStops(prepared, stops),
    added: additions({ watch, coverage, next }),
    ...weighed(context, watch.chances(coverage)),
    method: 'greedy by rank; no gap to the best possible plan is proven',
    notes: [...context.notes, ...qualityNote(budget)].map((note) => note.slice(0, 400)),
  }
}

/** Where the budget ends among points of one rank, those at which Legionella was found stay longest. */
function foundFirst({ input }: PlanContext, obligatory: readonly Candidate[]): readonly Candidate[] {
  const found = new Set((input.asked ?? []).flatMap((one) => (one.found === true ? [one.component] : [])))
  const order = ({ component }: Candidate): number => (found.has(component.id) ? 0 : 1)
  return obligatory.toSorted((a, b) => a.rank - b.rank || order(a) - order(b))
}

/** What a row of stops can detect, could miss, and takes. */
export function judgeStops(
  prepared: PreparedPlan,
  stops: readonly Stop[],
): Pick<Plan, 'scenarios' | 'couldHide' | 'totals'> {
  const { context, watch } = prepared
  const points = stops.flatMap(({ component = '', reasons }) => {
    const found = context.graph.components.get(component)
    return found === undefined ? [] : [{ component: found, reasons }]
  })
  const coverage = watch.cover(points)
  const chances = watch.chances(coverage)
  const byTeam = new Map<number, number>()
  for (const { team = 1, minutes } of stops) byTeam.set(team, (byTeam.get(team) ?? 0) + minutes)
  return {
    scenarios: SCENARIO_IDS.map((id) => ({ id, words: scenarioWords(id), detectionProbability: chances[id] })),
    couldHide: couldHide({ context, watch, coverage }),
    totals: {
      samples: stops.flatMap(({ samples }) => samples).filter((one) => isLabelled(one)).length,
      outlets: coverage.outlets,
      minutes: stops.reduce((sum, { minutes }) => sum + minutes, 0),
      hoursPerTeam: Math.max(0, ...byTeam.values()) / 60,
    },
  }
}

const qualityNote = ({ samples }: Budget): string[] =>
  samples > 0 && samples < PLANNING.blankFromSamples
    ? ['The budget leaves no room for a field blank: handling is not checked.']
    : []

function weighed({ input: { prior } }: PlanContext, chances: Chances): { weighed?: number } {
  const average = detectedOnAverage(SCENARIO_IDS.map((id) => ({ weight: prior?.[id] ?? 0, chance: chances[id] })))
  return average === undefined ? {} : { weighed: average }
}

interface LeftOutInput {
  readonly context: PlanContext
  readonly prepared: PreparedPlan
  readonly coverage: Coverage
  readonly dropped: readonly Candidate[]
}

function leftOut({ context, prepared, coverage, dropped }: LeftOutInput): Plan['leftOut'] {
  const { watch, excluded } = prepared
  const before = watch.chances(coverage)
  const loss = (candidate: Candidate): string => lossWords(before, watch.chances(watch.with(coverage, candidate)))
  const taken = [...excluded.values()].map(({ candidate, why }) => ({
    stop: stopOf(context, candidate),
    cost: `Taken out: ${why.slice(0, 200)}. ${missing(candidate)} ${loss(candidate)}`,
  }))
  const short = dropped.map((candidate) => ({
    stop: stopOf(context, candidate),
    cost: `${missing(candidate)} ${loss(candidate)}`,
  }))
  return [...taken, ...short]
}

const MISSING: Readonly<Record<string, string>> = {
  entry: 'Nothing tells whether the supply brings it in.',
  heater: 'Nothing tells whether this heater is colonised.',
  return: 'Nothing tells of the coolest water of this loop.',
  'nearest outlet': 'The near end of this riser goes unseen.',
  'farthest outlet': 'The far end of this riser goes unseen, where water is coolest and oldest.',
  'case exposure': 'A place a case used goes unseen.',
  'low use': 'Standing water here goes unseen.',
  'dead leg': 'This dead leg goes unseen.',
  device: 'This device goes unseen; it could be the source on its own.',
  'recent works': 'What the works may have stirred up goes unseen.',
  predicted: 'Where the simulation expects most trouble goes unseen.',
  control: 'One point fewer to tell a local source from a wide one.',
  'asked for': 'Someone asked for it.',
  spread: 'One outlet fewer is looked at.',
}

const missing = ({ reasons }: Candidate): string =>
  [...new Set(reasons.map(({ obligation }) => MISSING[obligation] ?? ''))].slice(0, 2).join(' ')

const percent = (share: number): string => `${(share * 100).toFixed(share > 0.995 || share < 0.1 ? 1 : 0)} %`

/** The scenario that loses most, in words. */
function lossWords(without: Chances, including: Chances): string {
  const worst =
    SCENARIO_IDS.toSorted((a, b) => including[b] - without[b] - (including[a] - without[a]))[0] ?? 'local-outlets'
  const gain = including[worst] - without[worst]
  if (gain < 5e-4) return 'The chance to detect stays the same to 0.1 %.'
  const name = scenarioWords(worst).split(':')[0]?.toLowerCase()
  return `Chance to detect ${name === 'one riser' ? 'one colonised riser' : name}: ${percent(without[worst])} without it, ${percent(including[worst])} with it.`
}

function additions(of: { watch: Watch; coverage: Coverage; next: readonly Candidate[] }): Addition[] {
  const { watch, next } = of
  let { coverage } = of
  let before = watch.chances(coverage)
  return next.map((candidate) => {
    coverage = watch.with(coverage, candidate)
    const after = watch.chances(coverage)
    const gains = Object.fromEntries(SCENARIO_IDS.map((id) => [id, Math.max(0, after[id] - before[id])]))
    before = after
    return { component: candidate.component.id, title: titleOf(candidate), samples: labelledAt(candidate), gains }
  })
}

const titleOf = ({ component }: Candidate): string =>
  (component.label ?? [component.room, component.kind.replaceAll('-', ' ')].filter(Boolean).join(' ')).slice(0, 160)
