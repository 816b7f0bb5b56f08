import { type Entry, type EntryOf, envelopeSchema } from './entry.ts'
import { issuesFromZod, parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { isKind, KINDS } from './kinds.ts'

/** Checks the shape of an entry from outside: envelope, known kind, body of that kind. All issues at once. */
export function parseEntry(input: unknown): { ok: true; entry: Entry } | { ok: false; issues: Issue[] } {
  const envelope = parseWith(envelopeSchema, input)
  if (!envelope.ok) return envelope
  const { kind } = envelope.value
  if (!isKind(kind))
    return { ok: false, issues: [issue('kind', { expected: 'a known kind of entry', received: kind })] }
  const body = KINDS[kind].body.safeParse(envelope.value.body)
  if (!body.success) {
    const issues = issuesFromZod(body.error, envelope.value.body)
    return { ok: false, issues: issues.map((found) => ({ ...found, path: joined('body', found.path) })) }
  }
  const entry = { ...envelope.value, body: body.data } as Entry
  return entry.kind === 'entry.contested' ? withOriginal(entry) : { ok: true, entry }
}

/** A contested entry carries another one whole: that is held to its own shape too, and is of the same investigation. */
function withOriginal(entry: EntryOf<'entry.contested'>): ReturnType<typeof parseEntry> {
  const { kind, investigation } = entry.body.entry
  const at = (path: string): string => joined('body.entry', path)
  if (kind === 'entry.contested')
    return { ok: false, issues: [issue(at('kind'), { expected: 'an entry that was contested', received: kind })] }
  if (investigation !== entry.investigation)
    return {
      ok: false,
      issues: [issue(at('investigation'), { expected: entry.investigation, received: investigation })],
    }
  const original = parseEntry(entry.body.entry)
  if (original.ok) return { ok: true, entry: { ...entry, body: { ...entry.body, entry: original.entry } } }
  return { ok: false, issues: original.issues.map((found) => ({ ...found, path: at(found.path) })) }
}

function joined(head: string, tail: string): string {
  return tail === '' ? head : `${head}.${tail}`
}
