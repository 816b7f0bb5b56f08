import { STEP_WORDS, STEPS, type Step } from '@rillmark/casebook/entry/steps.ts'

/** The steps of the job, in the order it is lived. */
export const JOB_STEPS = STEPS.filter((step): step is Exclude<Step, 'record'> => step !== 'record')

export type Place = Step | 'calculators'

/** The rooms that serve every step. */
export const SIDE_PLACES = ['record', 'calculators'] as const satisfies readonly Place[]

export const PLACE_WORDS: Readonly<Record<Place, string>> = { ...STEP_WORDS, calculators: 'Calculators' }

export function isPlace(text: string): text is Place {
  return Object.hasOwn(PLACE_WORDS, text)
}
