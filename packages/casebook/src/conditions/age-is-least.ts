import settings from '@rillmark/reference/network/simulation.json' with { type: 'json' }
import type { PlaceConditions } from './conditions.ts'

const TOLD_TO_HOURS = settings.figures.ageCap.value

/** True where the age told is only the least it can be: water that never moves, or so slowly that it is older than is told. */
export const ageIsLeast = ({ neverMoves, ageHours }: Pick<PlaceConditions, 'neverMoves' | 'ageHours'>): boolean =>
  neverMoves === true || ageHours.mean >= TOLD_TO_HOURS
