import type { Procedure } from '../procedures/procedure.ts'
import { procedureIn, proceduresIn } from '../plan/procedures-in-use.ts'
import { proceduresFor } from '../procedures/procedures.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { Figure } from '../units/figure.ts'

/** How long a sample may wait, how cold and warm it may get, and what other sources say. */
export interface Hold {
  readonly procedure: string
  readonly version: string
  /** the figure in use; of a range the lower end */
  readonly hours: number
  readonly hoursFigure: Figure
  readonly transport: Figure
  readonly lowestC: number
  readonly highestC: number
  readonly disagreeingHours: readonly Figure[]
  readonly disagreeingTransport: readonly Figure[]
  readonly meaning: string
}

/** The hold time of the procedure by which a sample was taken; undefined where no procedure says one. */
export function holdOf(state: InvestigationState, sample: EffectiveEntry<'sample.collected'>): Hold | undefined {
  const procedure = procedureOf(state, sample)
  if (procedure?.hold === undefined) return undefined
  const { hours, transport, disagreeing, meaning } = procedure.hold
  const { id, version } = procedure
  return {
    procedure: id,
    version,
    hours: typeof hours.value === 'number' ? hours.value : hours.value.min,
    hoursFigure: hours,
    transport,
    lowestC: transport.value.min,
    highestC: transport.value.max,
    disagreeingHours: disagreeing.filter(({ unit }) => unit === hours.unit),
    disagreeingTransport: disagreeing.filter(({ unit }) => unit === transport.unit),
    meaning,
  }
}

/** As planned at the stop; else the one made for this kind of component and sample; else any that takes this kind. */
function procedureOf(
  state: InvestigationState,
  { body: { round, stop, label, sampleKind, component } }: EffectiveEntry<'sample.collected'>,
): Procedure | undefined {
  const planned = [
    ...(state.plan.rounds.get(round)?.body.plan.stops ?? []),
    ...state.fieldwork.addedStops.filter(({ body }) => body.round === round).map(({ body }) => body.stop),
  ].find(({ id }) => id === stop)?.samples
  const named =
    planned?.find((sample) => sample.label === label) ?? planned?.find((each) => each.sampleKind === sampleKind)
  const asPlanned = named === undefined ? undefined : procedureIn(state, named.procedure)
  if (asPlanned?.hold !== undefined) return asPlanned
  const procedures = proceduresIn(state)
  const kind = component === undefined ? undefined : state.building.working.component(component)?.kind
  const fitting = kind === undefined ? [] : proceduresFor(kind, { sampleKind, among: procedures })
  return [...fitting, ...procedures.filter(({ sampleKinds }) => sampleKinds.includes(sampleKind))].find(
    ({ hold }) => hold !== undefined,
  )
}
