import { readTypedNumber } from '../kit/typed-number.ts'
import type { FieldSpec, NamedField } from './field-spec.ts'

/** What stands in a form: text as typed, flags, groups and rows. */
export type Draft = string | boolean | readonly Draft[] | { readonly [name: string]: Draft }

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
    case 'json':
      return value === undefined ? '' : JSON.stringify(value, null, 2)
    default:
      return value === undefined || value === null ? '' : String(value)
  }
}

/** The draft of a whole object. */
export function groupDraft(fields: readonly NamedField[], value: unknown): { readonly [name: string]: Draft } {
  const given = typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {}
  return Object.fromEntries(fields.map(({ name, spec, preset }) => [name, draftOf(spec, given[name] ?? preset)]))
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
    case 'number': {
      const read = readTypedNumber(String(draft ?? ''))
      return read.kind === 'number' ? read.value : read.kind === 'empty' ? undefined : draft
    }
    case 'json':
      return jsonValue(String(draft ?? ''))
    default:
      return draft === '' || draft === undefined ? undefined : draft
  }
}

function groupValue(fields: readonly NamedField[], draft: Draft | undefined): Record<string, unknown> | undefined {
  const given = typeof draft === 'object' && !Array.isArray(draft) ? (draft as Readonly<Record<string, Draft>>) : {}
  const pairs = fields.map(({ name, spec, needed }) => [name, valueOf(spec, given[name]), spec, needed] as const)
  const kept = pairs.filter(([, value, spec, needed]) => value !== undefined && (needed || !isBlank(spec, value)))
  return Object.fromEntries(kept.map(([name, value]) => [name, value]))
}

/** An optional group or list nobody filled in is not there. */
function isBlank(spec: FieldSpec, value: unknown): boolean {
  if (spec.kind === 'group') return Object.keys(value ?? {}).length === 0
  return spec.kind === 'list' && Array.isArray(value) && value.length === 0
}

function jsonValue(text: string): unknown {
  if (text.trim() === '') return undefined
  try {
    return JSON.parse(text)
  } catch {
    return text
  }
}
