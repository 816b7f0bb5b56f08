import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { ConcentrationUnit } from '@rillmark/casebook/units/quantity.ts'
import { type ResultKind, type ResultValue, resultValueSchema } from '@rillmark/casebook/units/result-value.ts'
import { readTypedNumber } from '../kit/typed-number.ts'

/** A result while it is being typed. */
export interface ValueDraft {
  readonly kind: ResultKind
  readonly amount: string
  readonly unit: ConcentrationUnit
  readonly volumeMl: string
  readonly reason: string
}

export const VALUE_WORDS: Readonly<Record<ResultKind, string>> = {
  count: 'count',
  below: 'less than',
  above: 'more than',
  'not-detected': 'not detected',
  detected: 'detected, not counted',
  overgrown: 'overgrown',
  broken: 'bottle broken',
  'not-tested': 'not tested',
}

const EMPTY_DRAFT: ValueDraft = { kind: 'count', amount: '', unit: 'CFU/mL', volumeMl: '', reason: '' }

export function draftOf(value: ResultValue | undefined): ValueDraft {
  if (value === undefined) return EMPTY_DRAFT
  const amount = value.kind === 'count' ? value.value : 'limit' in value ? value.limit : undefined
  return {
    kind: value.kind,
    amount: amount === undefined ? '' : String(amount),
    unit: ('unit' in value ? value.unit : undefined) ?? EMPTY_DRAFT.unit,
    volumeMl: value.kind === 'not-detected' && value.volumeMl !== undefined ? String(value.volumeMl) : '',
    reason: value.kind === 'not-tested' ? value.reason : '',
  }
}

/** The value typed, or what is missing of it. */
export function valueOf(draft: ValueDraft): { ok: true; value: ResultValue } | { ok: false; issues: Issue[] } {
  const amount = readTypedNumber(draft.amount)
  const volume = readTypedNumber(draft.volumeMl)
  if (amount.kind === 'unreadable' || volume.kind === 'unreadable')
    return {
      ok: false,
      issues: [
        issue('value', {
          expected: 'a number',
          received: amount.kind === 'unreadable' ? draft.amount : draft.volumeMl,
        }),
      ],
    }
  const number = amount.kind === 'number' ? amount.value : undefined
  return parseWith(
    resultValueSchema,
    bodyOf(draft, { number, volumeMl: volume.kind === 'number' ? volume.value : undefined }),
  )
}

function bodyOf(
  { kind, unit, reason }: ValueDraft,
  { number, volumeMl }: { number: number | undefined; volumeMl: number | undefined },
): object {
  switch (kind) {
    case 'count':
      return { kind, value: number, unit }
    case 'below':
    case 'above':
      return { kind, limit: number, unit }
    case 'not-detected':
      return {
        kind,
        ...(volumeMl === undefined ? {} : { volumeMl }),
        ...(number === undefined ? {} : { limit: number, unit }),
      }
    case 'not-tested':
      return { kind, reason }
    default:
      return { kind }
  }
}
