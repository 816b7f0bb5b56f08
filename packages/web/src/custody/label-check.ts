import { readLabel } from '@rillmark/casebook/label/label.ts'
import { originOf } from '@rillmark/casebook/custody/origin.ts'
import { componentName } from '@rillmark/casebook/building/labels.ts'
import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'

/** What a label means while it is being typed. */
export type LabelCheck =
  | { readonly kind: 'empty' }
  | { readonly kind: 'going on' }
  | { readonly kind: 'wrong'; readonly advice: string }
  | { readonly kind: 'right'; readonly label: string; readonly words: string }

const LETTERS_AND_DIGITS = 9

/** Reads a label as far as it is typed: which sample it is, or why it can't be packed. Half a label is no error yet. */
export function checkLabel(state: InvestigationState, typed: string): LabelCheck {
  const text = typed.trim()
  if (text === '') return { kind: 'empty' }
  if (originOf(state, text) !== undefined) return known(state, text)
  const reading = readLabel(text)
  if (reading.kind === 'ok') return known(state, reading.label.id)
  const length = text.replace(/[\s\p{Pd}_]/gu, '').length
  return length < LETTERS_AND_DIGITS ? { kind: 'going on' } : { kind: 'wrong', advice: `${capital(reading.advice)}.` }
}

function known(state: InvestigationState, label: string): LabelCheck {
  const origin = originOf(state, label)
  if (origin === undefined)
    return { kind: 'wrong', advice: `${label} is a sound label, but no sample with it was collected.` }
  const place = state.custody.consignmentOf.get(label)
  if (place !== undefined) return { kind: 'wrong', advice: `${label} is already in ${place}.` }
  const { component, sampleKind, stop } = origin.sample.body
  const found = component === undefined ? undefined : state.building.working.component(component)
  const where = found === undefined ? (component ?? stop) : componentName(found)
  const part = origin.split === undefined ? '' : `part of ${origin.split.body.label} for ${origin.split.body.to.name}, `
  return { kind: 'right', label, words: `${part}${where}, ${SAMPLE_KIND_WORDS[sampleKind]}` }
}
