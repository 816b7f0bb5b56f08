import { sweepStanding } from '@rillmark/casebook/building/devices.ts'
import type { Step } from '@rillmark/casebook/entry/steps.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'

/** How far a step of the job is. */
export interface Standing {
  readonly is: 'not started' | 'in hand' | 'waiting' | 'done'
  /** Said instead of the plain word where more is known: '19 of 22', 'with lab'. */
  readonly words?: string | undefined
}

type Judge = (state: InvestigationState) => Standing

const NOT_STARTED: Standing = { is: 'not started' }

/** How each step stands, from the record alone. The owner of a step refines its line here. */
export const STANDING_OF: Readonly<Record<Exclude<Step, 'record'>, Judge>> = {
  brief: ({ brief }) => (brief.opened === undefined ? NOT_STARTED : { is: 'in hand' }),
  cases: ({ cases }) =>
    cases.cases.size === 0 ? NOT_STARTED : { is: 'in hand', words: counted(cases.cases.size, 'case') },
  building,
  plan: ({ plan }) => (plan.rounds.size === 0 ? NOT_STARTED : { is: 'done', words: 'adopted' }),
  fieldwork,
  custody,
  results,
  findings: ({ findings }) =>
    findings.conclusions.length === 0
      ? NOT_STARTED
      : { is: 'in hand', words: counted(findings.conclusions.length, 'conclusion') },
  control,
  'follow-up': ({ followUp }) => {
    if (followUp.closed !== undefined) return { is: 'done', words: 'closed' }
    return followUp.started === undefined ? NOT_STARTED : { is: 'waiting', words: 'rounds run' }
  },
  report: ({ report }) =>
    report.issued.length > 0
      ? { is: 'done', words: 'issued' }
      : report.sections.size > 0
        ? { is: 'in hand' }
        : NOT_STARTED,
}

/** Described is half of it: the sweep of everything that wets air is the other. */
function building({ building: { described, sweep } }: InvestigationState): Standing {
  if (described === undefined) return NOT_STARTED
  const answers = new Map([...sweep].map(([device, { body }]) => [device, body.state]))
  const standing = sweepStanding(answers)
  const answered = standing.filter(({ answer }) => answer !== 'not looked at').length
  if (answered === standing.length) return { is: 'done', words: 'swept' }
  return { is: 'in hand', words: answered === 0 ? 'described' : `swept ${answered} of ${standing.length}` }
}

function fieldwork({ fieldwork: { visits, addedStops }, plan: { rounds } }: InvestigationState): Standing {
  if (visits.size === 0) return NOT_STARTED
  const finished = [...visits.values()].flatMap((visit) => visit.finished ?? [])
  const notPossible = finished.filter(({ body }) => body.outcome === 'not possible').length
  const planned = [...rounds.values()].reduce((sum, { body }) => sum + body.plan.stops.length, addedStops.length)
  const given = notPossible === 0 ? '' : `, ${notPossible} not possible`
  return {
    is: finished.length === planned ? 'done' : 'in hand',
    words: `${finished.length - notPossible} of ${planned}${given}`,
  }
}

function custody({
  custody: { consignments, consignmentOf },
  fieldwork: { samples },
  results,
}: InvestigationState): Standing {
  const toPack = [...samples.values()].filter(
    ({ body }) =>
      body.sampleKind !== 'readings-only' && !consignmentOf.has(body.label) && !results.resultsByLabel.has(body.label),
  ).length
  if (toPack > 0) return { is: 'in hand', words: `${toPack} to pack` }
  if (consignments.size === 0) return NOT_STARTED
  const boxes = [...consignments.values()].filter((box) => box.labels.size > 0 || box.received !== undefined)
  if (boxes.length === 0) return { is: 'in hand' }
  if (boxes.every((box) => box.received !== undefined)) return { is: 'done', words: 'received' }
  const away = boxes.some(
    ({ received, events }) => received === undefined && events.some(({ kind }) => kind === 'consignment.handed-over'),
  )
  return away ? { is: 'waiting', words: 'on its way' } : { is: 'in hand', words: 'to hand over' }
}

function results({ results: { resultsByLabel }, fieldwork: { samples } }: InvestigationState): Standing {
  if (resultsByLabel.size === 0)
    return samples.size === 0 ? NOT_STARTED : { is: 'waiting', words: `0 of ${samples.size}` }
  const answered = [...samples.keys()].filter((label) => resultsByLabel.has(label)).length
  if (samples.size === 0) return { is: 'in hand', words: counted(resultsByLabel.size, 'sample') }
  return { is: answered === samples.size ? 'done' : 'waiting', words: `${answered} of ${samples.size}` }
}

function control({ control: { measures } }: InvestigationState): Standing {
  if (measures.size === 0) return NOT_STARTED
  const open = [...measures.values()].filter(({ completed }) => completed === undefined).length
  if (open > 0) return { is: 'in hand', words: `${open} open` }
  const partly = [...measures.values()].filter(({ completed }) => completed?.body.outcome === 'partly').length
  return partly > 0 ? { is: 'done', words: `${partly} only partly` } : { is: 'done' }
}
