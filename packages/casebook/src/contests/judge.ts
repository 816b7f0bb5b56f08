import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Entry } from '../entry/entry.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** What a state says against an entry of sound shape; handed in where the rules themselves would be imported in a circle. */
export type Judge = (state: InvestigationState, entry: Entry) => readonly Issue[]
