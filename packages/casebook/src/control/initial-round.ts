import type { InvestigationState } from '../state/investigation-state.ts'
import { localDate } from '../units/local-time.ts'
import { visitKey } from '../fieldwork/state.ts'
import { counted } from '../units/counted.ts'

/** Why a measure completed on a day came before the samples of the initial round were taken; undefined where it did not. */
export function beforeInitialSamples(state: InvestigationState, completedOn: string): string | undefined {
  const initial = [...state.plan.rounds.values()].filter(({ body }) => body.purpose === 'initial')
  const rounds = new Set(initial.map(({ body }) => body.round))
  const days = [...state.fieldwork.samples.values()]
    .filter(({ body }) => rounds.size === 0 || rounds.has(body.round))
    .map(localDate)
  const byOthers = [...state.results.registered.values()].flatMap(({ body }) => body.collectedOn ?? [])
  const last = [...days, ...(rounds.size === 0 ? byOthers : [])].sort().at(-1)
  if (last === undefined) return 'no sample of the initial round has been collected'
  if (last > completedOn) return `samples of the initial round were still collected on ${last}`
  const open = initial.flatMap(({ body }) =>
    body.plan.stops.filter(({ id }) => isOpen(state, { round: body.round, stop: id })),
  )
  if (open.length === 0) return undefined
  return `${counted(open.length, 'stop')} of the initial round ${open.length === 1 ? 'is' : 'are'} not finished`
}

function isOpen(state: InvestigationState, at: { round: string; stop: string }): boolean {
  const visit = state.fieldwork.visits.get(visitKey(at))
  return visit === undefined || (visit.finished === undefined && visit.samples.length === 0)
}
