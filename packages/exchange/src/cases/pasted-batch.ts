import type { CasesState } from '@rillmark/casebook/cases/state.ts'
import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { PastedCases } from './pasted-cases.ts'

type Exposure = BodyOf<'exposure.recorded'>

/** What pasted rows add to a record: entries in the order in which they can be written, and everything left out of them. */
export interface PastedBatch {
  readonly proposals: readonly Proposal[]
  readonly cases: number
  readonly exposures: number
  readonly leftOut: {
    /** cases in the record already */
    readonly known: number
    /** codes of those that stand there with another onset or classification */
    readonly differing: readonly string[]
    /** exposures in the record already */
    readonly recorded: number
    /** exposures that stand twice in the rows */
    readonly repeated: number
  }
}

/** Compares what was read with the record: nothing is written twice, and nothing is left out without a word. */
export function pastedBatch(read: PastedCases, state: CasesState): PastedBatch {
  const fresh = read.cases.filter(({ code }) => !state.cases.has(code))
  const differing = read.cases.filter((body) => {
    const known = state.cases.get(body.code)?.body
    return known !== undefined && (known.onsetDate !== body.onsetDate || known.classification !== body.classification)
  })
  const inRecord = new Set(state.exposures.map(({ body }) => sameness(body)))
  const inRows = new Set<string>()
  const count = { recorded: 0, repeated: 0 }
  const exposures = read.exposures.filter((body) => {
    const same = sameness(body)
    if (inRecord.has(same)) count.recorded += 1
    else if (inRows.has(same)) count.repeated += 1
    else return inRows.add(same)
    return false
  })
  return {
    proposals: [
      ...fresh.map((body) => ({ kind: 'case.recorded' as const, body })),
      ...exposures.map((body) => ({ kind: 'exposure.recorded' as const, body })),
    ],
    cases: fresh.length,
    exposures: exposures.length,
    leftOut: { known: read.cases.length - fresh.length, differing: differing.map(({ code }) => code), ...count },
  }
}

/** What was left out, in words; empty where nothing was. */
export function pastedWords({ leftOut }: PastedBatch): readonly string[] {
  const { known, differing, recorded, repeated } = leftOut
  return [
    recorded > 0 && `In the record already, left out: ${counted(recorded, 'exposure')}.`,
    repeated > 0 && `Twice in the rows, taken once: ${counted(repeated, 'exposure')}.`,
    known > 0 && `In the record already, left as there: ${counted(known, 'case')}.`,
    differing.length > 0 &&
      `${differing.join(', ')}: another onset or classification stands in the record; amend it there if the rows are right.`,
  ].filter((words) => words !== false)
}

/** Two exposures are the same when case, place, kind, component and days are; notes may be worded otherwise. */
function sameness({ caseCode, place, kind, component, from, to }: Exposure): string {
  return JSON.stringify([caseCode, place.trim().toLowerCase(), kind, component ?? '', from, to])
}
