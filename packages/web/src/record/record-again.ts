import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type BodyOf, type Kind, KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { Investigation } from '../store/investigation.tsx'

export interface RecordedAgain {
  readonly done: number
  readonly left: number
}

/**
 * Records entries again that were signed with a key no longer taken, in their order, each with its own time and in the place of the old one.
 * A note goes before them that says so. Where one speaks of another by its id, it speaks of the new one. What the record objects to stays
 * refused, for a person to look at.
 */
export async function recordAgain(
  entries: readonly Entry[],
  propose: Investigation['propose'],
): Promise<RecordedAgain> {
  const text = noteWords(entries)
  if (text === '') return { done: 0, left: 0 }
  const noted = await propose('note.written', { text, purpose: 'note', about: 'record' })
  if (!noted.ok) return { done: 0, left: entries.length }
  const renamed = new Map<string, string>()
  for (const entry of entries) {
    const { kind, body, corrects } = withNewIds(entry, renamed)
    const proposed = await propose(kind, body, { instead: entry, ...(corrects === undefined ? {} : { corrects }) })
    if (proposed.ok) renamed.set(entry.id, proposed.entry.id)
  }
  return { done: renamed.size, left: entries.length - renamed.size }
}

const LONGEST_NOTE = 4000
const MOST_TOLD = 20

/** Which entries, by whom, of which former device: what a hearing would ask. */
function noteWords(entries: readonly Entry[]): string {
  const [first] = entries
  if (first === undefined) return ''
  const told = entries
    .slice(0, MOST_TOLD)
    .map((entry) => `${KINDS[entry.kind].title}, ${entry.author}, ${wallClock(entry)} ${entry.offset}`)
  const more = entries.length > MOST_TOLD ? [`and ${entries.length - MOST_TOLD} more`] : []
  const lead = `Recorded again: ${counted(entries.length, { one: 'entry', many: 'entries' })} written on this device as ${first.device}, before it was revoked. Each bears the time it was first written.`
  return `${lead} ${[...told, ...more].join('; ')}.`.slice(0, LONGEST_NOTE)
}

function withNewIds(
  { kind, body, corrects }: Entry,
  renamed: ReadonlyMap<string, string>,
): { readonly kind: Kind; readonly body: BodyOf<Kind>; readonly corrects: Entry['corrects'] } {
  const text = JSON.stringify({ body, corrects }, (_, value: unknown) =>
    typeof value === 'string' ? (renamed.get(value) ?? value) : value,
  )
  const renewed = JSON.parse(text) as { body: BodyOf<Kind>; corrects?: Entry['corrects'] }
  return { kind, body: renewed.body, corrects: renewed.corrects }
}
