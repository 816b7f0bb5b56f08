import { type Circuit, SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import type { PlannedSample } from '../plan/plan-file.ts'
import type { Procedure, ProcedureStep, RequiredReading } from '../procedures/procedure.ts'
import { findProcedure, stepsFor } from '../procedures/procedures.ts'
import { duplicatesBeside } from './duplicate-beside.ts'
import type { ReadingQuantity } from './kinds.ts'

/** One thing to do at a stop, on its own. */
export interface Task {
  /** its name at this stop */
  readonly key: string
  readonly procedure: string
  /** that procedure itself, the user's own where there is one */
  readonly follows: Procedure
  /** what entries call it: the step's id, and for a reading which one */
  readonly name: string
  readonly step: ProcedureStep
  readonly title: string
  /** the planned sample it serves; a reading and a caution serve the whole point */
  readonly sample?: PlannedSample | undefined
  readonly circuit?: Circuit | undefined
  /** what is measured; only for a reading */
  readonly quantity?: ReadingQuantity | undefined
}

interface Group {
  readonly procedure: string
  readonly circuit: Circuit | undefined
  readonly samples: PlannedSample[]
}

/**
 * Everything to do for the samples of one stop, merged over their procedures: cautions, questions, first flush and swab, bulk samples,
 * readings, the hot reading last. Within that, a procedure keeps its own order, and a duplicate goes beside the sample it repeats.
 */
export function tasksFor(
  samples: readonly PlannedSample[],
  { residual, own = [] }: { residual: 'free-chlorine' | 'total-chlorine'; own?: readonly Procedure[] },
): readonly Task[] {
  const groups = groupsOf(samples)
  const several = new Set(groups.map(({ circuit }) => circuit)).size > 1
  const phased = groups.flatMap((group, index) => phasedTasks(group, { residual, several, index, own }))
  phased.sort((a, b) => a.phase - b.phase)
  const seen = new Set<string>()
  const once = phased.flatMap(({ task }): Task[] => {
    const same = sameness(task)
    if (same !== undefined && seen.has(same)) return []
    if (same !== undefined) seen.add(same)
    return [task]
  })
  return duplicatesBeside(once)
}

/** A caution said twice, or a reading of the same water, is needed once. */
function sameness({ step, quantity, circuit }: Task): string | undefined {
  if (quantity !== undefined) return `read ${quantity} ${circuit ?? ''}`
  return step.kind === 'caution' ? step.instruction : undefined
}

function groupsOf(samples: readonly PlannedSample[]): Group[] {
  const groups: Group[] = []
  for (const sample of samples) {
    const { procedure, circuit, sampleKind } = sample
    const open = groups.find(
      (group) =>
        group.procedure === procedure &&
        group.circuit === circuit &&
        group.samples.every((other) => other.sampleKind !== sampleKind),
    )
    if (open === undefined) groups.push({ procedure, circuit, samples: [sample] })
    else open.samples.push(sample)
  }
  return groups
}

interface Phased {
  readonly phase: number
  readonly task: Task
}

function phasedTasks(
  group: Group,
  how: {
    residual: 'free-chlorine' | 'total-chlorine'
    several: boolean
    index: number
    own: readonly Procedure[]
  },
): Phased[] {
  const procedure = findProcedure(group.procedure, how.own)
  if (procedure === undefined) return []
  const wanted = group.samples.map(({ sampleKind }) => sampleKind)
  let phase = 0
  return stepsFor(procedure, wanted).flatMap((step): Phased[] => {
    phase = Math.max(phase, phaseOf(step, { begun: phase > PHASE.ask }))
    const sample = sampleOf(group, step)
    const base = { procedure: group.procedure, follows: procedure, step, sample, circuit: group.circuit }
    const key = `${how.index}/${group.procedure}/${step.id}`
    if (step.readings.length === 0) return [{ phase, task: { ...base, key, name: step.id, title: step.title } }]
    return step.readings.map((reading): Phased => {
      const quantity = quantityOf(reading, how.residual)
      const title = readingTitle(quantity, how.several ? group.circuit : undefined)
      const name = `${step.id}:${reading}`
      return { phase, task: { ...base, key: `${key}/${reading}`, name, title, quantity } }
    })
  })
}

const PHASE = { caution: 0, ask: 1, firstFlush: 2, bulk: 3, read: 4, hot: 5 } as const

function phaseOf({ kind, serves, produces, readings }: ProcedureStep, { begun }: { begun: boolean }): number {
  if (readings.includes('temperature-curve-hot')) return PHASE.hot
  if (kind === 'read') return PHASE.read
  if (kind === 'caution') return PHASE.caution
  if (serves === 'first-flush-swab' || produces === 'first-flush-swab') return PHASE.firstFlush
  return kind === 'note' && !begun ? PHASE.ask : PHASE.bulk
}

/** Steps that handle one container serve its sample; the rest serve the point. */
function sampleOf({ samples }: Group, { kind, serves, produces }: ProcedureStep): PlannedSample | undefined {
  const named = serves ?? produces
  if (named !== undefined) return samples.find(({ sampleKind }) => sampleKind === named && named !== 'readings-only')
  const [only, ...others] = samples
  return others.length === 0 && HANDLES.has(kind) && only?.sampleKind !== 'readings-only' ? only : undefined
}

const HANDLES: ReadonlySet<string> = new Set(['prepare', 'collect', 'neutralize', 'run', 'label'])

function quantityOf(reading: RequiredReading, residual: 'free-chlorine' | 'total-chlorine'): ReadingQuantity {
  if (reading === 'residual') return residual
  if (reading === 'ph') return 'ph'
  return reading === 'temperature-curve-hot' ? 'hot-temperature' : 'cold-temperature'
}

const TITLES: Readonly<Record<ReadingQuantity, string>> = {
  'hot-temperature': 'Run until it is as hot as it gets',
  'cold-temperature': 'Run until it is as cold as it gets',
  ph: 'pH',
  'free-chlorine': 'Free chlorine',
  'total-chlorine': 'Total chlorine',
}

function readingTitle(quantity: ReadingQuantity, circuit: Circuit | undefined): string {
  const own = quantity === 'hot-temperature' || quantity === 'cold-temperature' || circuit === undefined
  return own ? TITLES[quantity] : `${TITLES[quantity]}, ${circuit} water`
}

/** What the small line above a step's title says: the kind of sample or reading. */
export function taskKind({ step, sample, quantity }: Pick<Task, 'step' | 'sample' | 'quantity'>): string {
  if (quantity === 'hot-temperature') return 'hot reading'
  if (quantity === 'cold-temperature') return 'cold reading'
  if (quantity !== undefined) return 'reading'
  if (sample !== undefined) return SAMPLE_KIND_WORDS[sample.sampleKind]
  return step.kind === 'caution' ? 'caution' : 'before you begin'
}
