import { fieldsOfVariant } from './draft.ts'
import type { FieldSpec, NamedField } from './field-spec.ts'
import { fieldWords, rowWord } from './field-words.ts'

/** What a person calls the place at a dotted path, and the unit of the value there. */
export interface PlaceWords {
  readonly label: string
  readonly unit: string
}

/** `segments.0.lengthM` → `Segment 1: length of pipe`, `m`. What the schema does not describe is called by its own name. */
export function labelAt(fields: readonly NamedField[], path: string): PlaceWords {
  const labels: string[] = []
  let spec: FieldSpec | undefined = { kind: 'group', fields }
  let unit = ''
  let list = ''
  for (const key of path.split('.').filter((part) => part !== '')) {
    if (/^\d+$/.test(key)) {
      labels.splice(-1, 1, `${rowWord(list)} ${Number(key) + 1}`)
      spec = spec?.kind === 'list' ? spec.row : undefined
      continue
    }
    const field: NamedField | undefined = fieldIn(spec, key)
    const words = field ?? fieldWords(key, {})
    labels.push(words.label)
    unit = words.unit
    list = key
    spec = field?.spec
  }
  return { label: labels.map((label, index) => (index === 0 ? label : lowerFirst(label))).join(': '), unit }
}

function fieldIn(spec: FieldSpec | undefined, name: string): NamedField | undefined {
  if (spec?.kind === 'group') return spec.fields.find((field) => field.name === name)
  if (spec?.kind !== 'variant') return undefined
  return spec.options.flatMap(({ id }) => fieldsOfVariant(spec, id)).find((field) => field.name === name)
}

/** An abbreviation such as `pH` or `CFU` stays as it is. */
export function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text
}
