import { isoDate } from '@rillmark/casebook/entry/fields.ts'
import type { SETTINGS } from '@rillmark/casebook/brief/kinds.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'

/** What is typed at the first call. */
export interface StartTyped {
  readonly name: string
  readonly title: string
  readonly locality: string
  readonly setting: (typeof SETTINGS)[number] | ''
  readonly openedOn: string
  readonly reason: string
}

/** The labels of the fields, as they stand in the dialog. */
export const START_LABELS = {
  title: 'Building or place',
  setting: 'Setting',
  openedOn: 'Opened on',
  reason: 'Why you were called',
  name: 'Who is writing',
} as const

const NEEDED = {
  title: 'a name; it can be amended later',
  setting: 'the kind of place it is',
  openedOn: 'a day',
  reason: 'one sentence',
  name: 'your name or initials',
} as const

/** Everything that is still missing or can't be read, all at once and in the order of the fields. */
export function missingToStart(typed: StartTyped): readonly Issue[] {
  return (Object.keys(NEEDED) as (keyof typeof NEEDED)[]).flatMap((field) => {
    const text = typed[field].trim()
    const sound = field === 'openedOn' ? isoDate.safeParse(text).success : text !== ''
    return sound
      ? []
      : [issue(START_LABELS[field], { expected: NEEDED[field], received: text === '' ? undefined : text })]
  })
}
