import type { FieldSpec, NamedField } from './field-spec.ts'
import { readTypedQuantity } from './typed-quantity.ts'

/** What stands in a form: text as typed, flags, groups and rows. */
export type Draft = string | boolean | readonly Draft[] | GroupDraft

/** The drafts of a group of fields, by name. */
export type GroupDraft = { readonly [name: string]: Draft }

/** A draft as that of a group; an empty one where it is something else. */
export function asGroup(draft: Draft): GroupDraft {
  return typeof draft === 'object' && !Array.isArray(draft) ? (draft as GroupDraft) : {}
}

/** The draft that shows a value; the empty draft when there is none. */
export function draftOf(spec: FieldSpec, value: unknown): Draft {
  switch (spec.kind) {
    case 'flag':
      return value === true
    case 'group':
      return groupDraft(spec.fields, value)
    case 'list': {
      const rows = Array.isArray(value) ? value : Array.from({ length: spec.atLeast }, () => undefined)
      return rows.map((row) => draftOf(spec.row, row))
    }
    case 'variant': {
      const id = isObject(value) ? String(value[spec.by] ?? '') : ''
      return { [spec.by]: id, ...groupDraft(fieldsOfVariant(spec, id), value) }
    }
    case 'json':
      return value === undefined ? '' : JSON.stringify(value, null, 2)
    default:
      return value === undefined || value === null ? '' : String(value)
  }
}

/** The draft of a whole object. */
export function groupDraft(fields: readonly NamedField[], value: unknown): GroupDraft {
  const given = isObject(value) ? value : {}
  return Object.fromEntries(fields.map(({ name, spec, preset }) => [name, draftOf(spec, given[name] ?? preset)]))
}

type Variant = Extract<FieldSpec, { kind: 'variant' }>

/** The fields of the shape chosen; none while nothing is chosen. */
export function fieldsOfVariant({ options }: Variant, id: string): readonly NamedField[] {
  return options.find((option) => option.id === id)?.fields ?? []
}

/** The draft once another shape is chosen: what was typed stays, and what is preset in the new shape shows where nothing was typed. */
export function withShape(spec: Variant, { draft, id }: { draft: GroupDraft; id: string }): Draft {
  const typed = Object.entries(draft).filter(([, value]) => value !== '')
  return { ...groupDraft(fieldsOfVariant(spec, id), undefined), ...Object.fromEntries(typed), [spec.by]: id }
}

/**
 * The value a draft stands for. Empty fields are left out; text that is no number stays text, so the schema's check names it and nothing is
 * lost.
 */
export function valueOf(spec: FieldSpec, draft: Draft | undefined): unknown {
  switch (spec.kind) {
    case 'flag':
      return draft === true
    case 'group':
      return groupValue(spec.fields, draft)
    case 'list':
      return Array.isArray(draft) ? draft.map((row) => valueOf(spec.row, row)) : []
    case 'variant':
      return variantValue(spec, draft)
    case 'number': {
      const read = readTypedQuantity(String(draft ?? ''))
      return read.kind === 'number' ? read.value : read.kind === 'empty' ? undefined : draft
    }
    case 'json':
      return jsonValue(String(draft ?? ''))
    default:
      return draft === '' || draft === undefined ? undefined : draft
  }
}

/** What was typed for another shape stays in the draft and is not part of the value. */
function variantValue(spec: Variant, draft: Draft | undefined): unknown {
  const id = isObject(draft) ? String(draft[spec.by] ?? '') : ''
  return id === '' ? undefined : { [spec.by]: id, ...groupValue(fieldsOfVariant(spec, id), draft) }
}

function groupValue(fields: readonly NamedField[], draft: Draft | undefined): Record<string, unknown> | undefined {
  const given = isObject(draft) ? (draft as GroupDraft) : {}
  const pairs = fields.map(({ name, spec, needed }) => [name, valueOf(spec, given[name]), spec, needed] as const)
  const kept = pairs.filter(([, value, spec, needed]) => value !== undefined && (needed || !isBlank(spec, value)))
  return Object.fromEntries(kept.map(([name, value]) => [name, value]))
}

/** An optional flag, group or list nobody filled in is not there. */
function isBlank(spec: FieldSpec, value: unknown): boolean {
  if (spec.kind === 'flag') return value === false
  if (spec.kind === 'group') return Object.values(value ?? {}).every(holdsNothing)
  return spec.kind === 'list' && Array.isArray(value) && value.length === 0
}

/** True of a flag not set, and of rows and groups that only have room for what nobody filled in. */
function holdsNothing(value: unknown): boolean {
  if (typeof value === 'object' && value !== null) return Object.values(value).every(holdsNothing)
  return value === undefined || value === false
}

function jsonValue(text: string): unknown {
  if (text.trim() === '') return undefined
  try {
    return JSON.parse(text)
  } catch {
    return text
  }
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
