import { type Entry, envelopeSchema } from './entry.ts'
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
  return { ok: true, entry: { ...envelope.value, body: body.data } as Entry }
}

function joined(head: string, tail: string): string {
  return tail === '' ? head : `${head}.${tail}`
}
