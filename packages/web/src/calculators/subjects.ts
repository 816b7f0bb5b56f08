import { type Calculation } from '@rillmark/science/catalogue/descriptor.ts'

/** What calculations are about, in the order of the list. */
const SUBJECTS: readonly (readonly [string, readonly string[]])[] = [
  ['Sampling and its limits', ['outlets-to-sample', 'detection-probability', 'upper-bound-after-negatives']],
  ['Sample bottles and laboratory counts', ['neutralizer', 'plate-count', 'most-probable-number', 'censored-summary']],
  [
    'Positivity and exposure',
    ['proportion', 'two-by-two', 'stratified-two-by-two', 'matched-sets', 'penalised-logistic'],
  ],
  ['Onset and incubation', ['incubation', 'exposure-time']],
  [
    'Pipes, flow and heat',
    ['pipe-volume', 'clearing-time', 'pipe-heat-loss', 'standing-cooling', 'loop-temperature', 'mixed-temperature'],
  ],
  [
    'Disinfection and discharge',
    [
      'shock-dose',
      'dechlorination',
      'hypochlorous-fraction',
      'disinfectant-contact',
      'residual-decay',
      'heat-inactivation',
    ],
  ],
  ['Isolates', ['allele-distance', 'minimum-spanning-tree', 'discrimination-index']],
  ['People', ['scald-time', 'shower-risk']],
  ['Following up', ['follow-up-dates']],
]

export interface SubjectGroup {
  readonly subject: string
  readonly calculations: readonly Calculation[]
}

/** The calculations that match the words, by subject; one without a subject comes under Other, so that none is ever missing. */
export function bySubject(calculations: readonly Calculation[], asked: string): readonly SubjectGroup[] {
  const words = asked.toLowerCase().split(/\s+/).filter(Boolean)
  const matching = calculations.filter((each) => words.every((word) => searchText(each).includes(word)))
  const known = new Set(SUBJECTS.flatMap(([, ids]) => ids))
  const groups = SUBJECTS.map(([subject, ids]) => ({
    subject,
    calculations: ids.flatMap((id) => matching.filter((each) => each.id === id)),
  }))
  const other = { subject: 'Other', calculations: matching.filter(({ id }) => !known.has(id)) }
  return [...groups, other].filter((group) => group.calculations.length > 0)
}

function searchText({ id, title, purpose }: Calculation): string {
  const subject = SUBJECTS.find(([, ids]) => ids.includes(id))?.[0] ?? ''
  return `${id} ${title} ${purpose} ${subject}`.toLowerCase()
}
