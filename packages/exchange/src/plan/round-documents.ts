import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { type FloorNames, floorWords } from '@rillmark/casebook/building/floor-words.ts'
import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/** What the papers of a round are made from. */
export interface RoundPapers {
  readonly title: string
  readonly round: string
  readonly plan: Plan
  /** what the building calls its floors */
  readonly floors: FloorNames
  readonly teams: readonly string[]
  readonly scheduledOn: string | undefined
  /** when the plan was adopted */
  readonly asOf: string
  readonly paper: 'a4' | 'us-letter'
}

export interface PapersAsked {
  /** the last adopted round where none is named */
  readonly round?: string | undefined
  readonly paper?: 'a4' | 'letter' | undefined
}

/** The adopted plan that papers are asked for, or why there is none. */
export function roundPapers(state: InvestigationState, asked: PapersAsked): RoundPapers | { issues: Issue[] } {
  const rounds = [...state.plan.rounds.keys()]
  const round = asked.round ?? rounds.at(-1)
  const adopted = round === undefined ? undefined : state.plan.rounds.get(round)
  if (round === undefined || adopted === undefined) {
    const expected = rounds.length === 0 ? 'an adopted plan; none is adopted yet' : `one of ${rounds.join(', ')}`
    return { issues: [issue('round', { expected, received: asked.round })] }
  }
  const { plan, teams, scheduledOn } = adopted.body
  return {
    title: state.brief.opened?.body.title ?? state.investigation,
    round,
    plan,
    floors: state.building.system?.floors,
    teams,
    scheduledOn,
    asOf: adopted.instant,
    paper: asked.paper === 'letter' ? 'us-letter' : 'a4',
  }
}

/** Floor, riser and room in a few words, as far as the title does not say them. */
export function placeWords(
  stop: {
    floor?: number | undefined
    riser?: string | undefined
    room?: string | undefined
    zone?: string | undefined
  },
  floors: FloorNames,
): string {
  return [
    stop.floor === undefined ? undefined : floorWords(floors, stop.floor),
    stop.riser === undefined ? undefined : `riser ${stop.riser}`,
    stop.room === undefined ? undefined : `room ${stop.room}`,
    stop.zone,
  ]
    .filter((part) => part !== undefined)
    .join(' · ')
}

/** The team's own name, else its number. */
export const teamName = ({ teams }: Pick<RoundPapers, 'teams'>, team: number): string =>
  teams[team - 1] ?? `Team ${team}`
