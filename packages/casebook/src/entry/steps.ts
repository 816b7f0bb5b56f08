/** The steps of the job in the order it is lived, and the two rooms that serve all of them. */
export const STEPS = [
  'brief',
  'cases',
  'building',
  'plan',
  'fieldwork',
  'custody',
  'results',
  'findings',
  'control',
  'follow-up',
  'report',
  'record',
] as const

export type Step = (typeof STEPS)[number]

export const STEP_WORDS: Readonly<Record<Step, string>> = {
  brief: 'Brief',
  cases: 'Cases',
  building: 'Building',
  plan: 'Plan',
  fieldwork: 'Fieldwork',
  custody: 'Custody',
  results: 'Results',
  findings: 'Findings',
  control: 'Control',
  'follow-up': 'Follow-up',
  report: 'Report',
  record: 'Record',
}
