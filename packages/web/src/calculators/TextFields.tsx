import { Fragment, type ReactNode } from 'react'
import { asGroup, type Draft, draftOf, type GroupDraft } from '../form/draft.ts'
import type { NamedField } from '../form/field-spec.ts'
import { SchemaFields, type SchemaFormProps } from '../form/SchemaForm.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { listIn } from './table-rows.ts'
import { tableEntryOf, textEntryOf } from './text-entries.ts'
import type { TextEntry } from './typed-text.ts'

/** Takes over a group with lists that are better typed as lines or pasted as a table; its other fields stay as they are. */
export function textFields(group: SchemaFormProps): ReactNode | undefined {
  if (group.path !== undefined) return undefined
  const filled = group.fields.map((field) => ({
    field,
    entry: textEntryOf(field, group.fields),
    table: tableEntryOf(field),
  }))
  if (filled.every(({ entry, table }) => entry === undefined && table === undefined)) return undefined
  const taken = new Set(filled.flatMap(({ entry }) => entry?.names.slice(1) ?? []))
  return filled
    .filter(({ field }) => !taken.has(field.name))
    .map(({ field, entry, table }) => (
      <Fragment key={field.name}>
        {entry !== undefined && <TextEntryField group={group} entry={entry} />}
        {entry === undefined && table !== undefined && <RowsOrTable group={group} field={field} entry={table} />}
        {entry === undefined && table === undefined && <SchemaFields {...group} fields={[field]} />}
      </Fragment>
    ))
}

const textKey = ({ names }: TextEntry): string => `$${names[0]} text`
/** More are easier to see over in a table, and on a phone much shorter. */
const MOST_FIGURES_ONE_BY_ONE = 6

const WAYS = [
  { id: 'rows', label: 'one by one' },
  { id: 'table', label: 'as a table' },
] as const

interface RowsOrTableProps {
  readonly group: SchemaFormProps
  readonly field: NamedField
  readonly entry: TextEntry
}

/** A few rows are filled in one by one, many in a table; either can be chosen. */
function RowsOrTable({ group, field, entry }: RowsOrTableProps): ReactNode {
  const { draft, onChange } = group
  const key = `$${field.name} way`
  const rows = listIn(draft, field.name)
  const text = draft[textKey(entry)]
  const way = draft[key] ?? (text !== undefined || isLong(rows) ? 'table' : 'rows')
  const unread = typeof text === 'string' && entry.read(text).problems.length > 0
  const choose = (chosen: string): void => {
    const empty = rows.length === 0 ? draftOf(field.spec, undefined) : rows
    onChange({ ...without(draft, entry), [field.name]: empty, [key]: chosen })
  }
  return (
    <>
      <RadioRow
        label={field.label}
        value={way === 'table' ? 'table' : 'rows'}
        onChange={choose}
        choices={WAYS}
        disabled={unread}
      />
      {way === 'table' ? (
        <TextEntryField group={group} entry={entry} labelHidden />
      ) : (
        <SchemaFields
          {...group}
          fields={[{ ...field, label: 'One by one' }]}
          onChange={(next) => onChange({ ...without(next, entry), [key]: 'rows' })}
        />
      )}
    </>
  )
}

function isLong(rows: readonly Draft[]): boolean {
  const figures = Object.keys(asGroup(rows[0] ?? {})).length
  return rows.length > 1 && rows.length * figures > MOST_FIGURES_ONE_BY_ONE
}

/** Without the text as typed, which no longer stands for what is filled in. */
function without(draft: GroupDraft, entry: TextEntry): GroupDraft {
  const { [textKey(entry)]: _, ...rest } = draft
  return rest
}

interface TextEntryFieldProps {
  readonly group: SchemaFormProps
  readonly entry: TextEntry
  readonly labelHidden?: boolean
}

/** The text as typed is kept beside what it stands for, under a name no schema knows. */
function TextEntryField({ group, entry, labelHidden }: TextEntryFieldProps): ReactNode {
  const { draft, onChange } = group
  const typed = draft[textKey(entry)]
  const text = typeof typed === 'string' ? typed : entry.write(draft)
  const { problems, summary } = entry.read(text)
  const blank = text.trim() === ''
  const issues = blank ? [] : problems.length > 0 ? problems : issuesOf(group, { entry, text })
  return (
    <div className="text-entry">
      <TextArea
        label={entry.label}
        labelHidden={labelHidden}
        hint={entry.hint}
        value={text}
        onChange={(next) => onChange({ ...draft, ...entry.read(next).drafts, [textKey(entry)]: next })}
        rows={Math.min(MOST_LINES, Math.max(LEAST_LINES, text.split('\n').length + 1))}
        mono
        required={entry.needed}
        issue={issues.length === 0 ? undefined : someOf(issues)}
      />
      <p className="field-hint" aria-live="polite">
        {!blank && problems.length === 0 && summary !== '' && `${summary}.`}
      </p>
    </div>
  )
}

const LEAST_LINES = 4
const MOST_LINES = 12
const MOST_ISSUES = 3

function someOf(issues: readonly string[]): string {
  const more = issues.length > MOST_ISSUES ? [`And ${issues.length - MOST_ISSUES} more.`] : []
  return [...issues.slice(0, MOST_ISSUES), ...more].join(' ')
}

function issuesOf(
  { issuesUnder }: SchemaFormProps,
  { entry, text }: { readonly entry: TextEntry; readonly text: string },
): readonly string[] {
  return entry.names
    .flatMap((name) => issuesUnder?.(name) ?? [])
    .map(({ path, words }) => {
      const place = entry.placeOf(path, text)
      return place === '' ? words : `${place}. ${words}`
    })
}
