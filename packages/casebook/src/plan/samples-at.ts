import { type Component, isOutlet } from '../building/water-system.ts'
import type { SampleKind } from '../entry/fields.ts'
import type { Procedure } from '../procedures/procedure.ts'
import type { PlannedSample, Reason } from './plan-file.ts'
import { type PlanContext, warmCircuit } from './plan-context.ts'
import { PLANNING } from './planning.ts'
import { readsCold } from './wishes-plant.ts'

type PlanCircuit = NonNullable<PlannedSample['circuit']>

/** What is taken at a point, by the procedures made for its kind, in the order it is taken. */
export function samplesAt(
  context: PlanContext,
  point: { component: Component; reasons: readonly Reason[] },
): PlannedSample[] {
  const { component, reasons } = point
  if (reasons.some(({ obligation }) => obligation === 'return'))
    return [takes(context, { component, sampleKind: 'return-line', circuit: 'hot-return' })]
  if (!isOutlet(component)) return plantSamples(context, component)
  const warm = warmCircuit(context, component)
  const swab = takes(context, { component, sampleKind: 'first-flush-swab', circuit: warm ?? 'cold' })
  if (warm === undefined) return coldOutlet(context, { component, swab })
  const bulk = takes(context, {
    component,
    sampleKind: offers(context, { component, kind: 'bulk-hot' }) ? 'bulk-hot' : 'bulk-cold',
    circuit: warm,
  })
  const far = reasons.some(({ obligation }) => obligation === 'farthest outlet') && readsCold(context, component)
  return far ? [swab, bulk, coldReading()] : [swab, bulk]
}

function coldOutlet(
  context: PlanContext,
  { component, swab }: { component: Component; swab: PlannedSample },
): PlannedSample[] {
  if (!offers(context, { component, kind: 'bulk-cold' })) return [swab, coldReading()]
  return [swab, takes(context, { component, sampleKind: 'bulk-cold', circuit: 'cold' })]
}

function plantSamples(context: PlanContext, component: Component): PlannedSample[] {
  const hot: [SampleKind, PlanCircuit] =
    component.kind === 'storage-heater' || component.kind === 'drain-valve'
      ? ['heater-drain', 'hot']
      : ['bulk-hot', 'hot']
  const cold = ['supply-entry', 'treatment', 'cold-tank'].includes(component.kind)
  const [sampleKind, circuit] = cold ? (['bulk-cold', 'cold'] as const) : hot
  return [takes(context, { component, sampleKind, circuit })]
}

const coldReading = (): PlannedSample => ({ sampleKind: 'readings-only', procedure: 'cold-readings', circuit: 'cold' })

function takes(
  context: PlanContext,
  what: { component: Component; sampleKind: SampleKind; circuit: PlanCircuit },
): PlannedSample {
  const { component, sampleKind, circuit } = what
  const { procedures } = context.input
  const made = procedures.find((one) => one.sampleKinds.includes(sampleKind) && one.components.includes(component.kind))
  const any = procedures.find((one) => one.sampleKinds.includes(sampleKind))
  const procedure = made ?? any
  const volumeMl = procedure === undefined ? undefined : volumeOf(procedure, sampleKind)
  return {
    sampleKind,
    procedure: procedure?.id ?? sampleKind,
    circuit,
    ...(volumeMl === undefined ? {} : { volumeMl }),
  }
}

const offers = (context: PlanContext, want: { component: Component; kind: SampleKind }): boolean =>
  context.input.procedures.some(
    (one) => one.sampleKinds.includes(want.kind) && one.components.includes(want.component.kind),
  )

/** Capacity of the container the sample ends in, or the volume its own step asks for where the container is larger than that. */
function volumeOf(procedure: Procedure, kind: SampleKind): number | undefined {
  const step = procedure.steps.find(({ produces }) => produces === kind)
  const filled = procedure.steps.find(
    ({ container, volume }) => container !== undefined && container === step?.container && volume !== undefined,
  )
  return (step?.volume ?? filled?.volume)?.value.max
}

/** Minutes at a stop: the middle of what its procedures usually take, and the walk to it. */
export function minutesAt(context: PlanContext, samples: readonly PlannedSample[]): number {
  const { perPointMinutes } = context.input.budget
  if (perPointMinutes !== undefined) return perPointMinutes
  const ids = new Set(samples.map(({ procedure }) => procedure))
  const minutes = [...ids].map((id) => usualMinutes(context.input.procedures.find((one) => one.id === id)))
  return PLANNING.minutesBetween + minutes.reduce((sum, one) => sum + one, 0)
}

function usualMinutes(procedure: Procedure | undefined): number {
  const value = procedure?.minutes.value
  return value === undefined ? PLANNING.minutesOtherwise : (value.min + value.max) / 2
}

/** Samples that go to the laboratory and take a label. Readings do not. */
export const isLabelled = ({ sampleKind }: Pick<PlannedSample, 'sampleKind'>): boolean => sampleKind !== 'readings-only'
