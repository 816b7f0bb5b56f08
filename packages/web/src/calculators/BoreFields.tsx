import { pipeSizes } from '@rillmark/science/pipes/pipe-catalogue.ts'
import { type ReactNode, useId } from 'react'
import { type GroupDraft, SchemaFields, type SchemaFormProps } from '../form/SchemaForm.tsx'
import { Select } from '../kit/Select.tsx'

const WAYS = [
  { id: 'bore', label: 'inside diameter' },
  { id: 'size', label: 'standard and size' },
] as const
type Way = (typeof WAYS)[number]['id']

const BORE_NAMES = new Set(['boreMm', 'standard', 'size'])

/** Takes over a group that asks for a bore or a standard and size: one or the other, and only the sizes there are. */
export function boreFields(group: SchemaFormProps): ReactNode | undefined {
  const names = group.fields.map(({ name }) => name)
  return [...BORE_NAMES].every((name) => names.includes(name)) ? <BoreFields {...group} /> : undefined
}

function BoreFields(group: SchemaFormProps): ReactNode {
  const { draft, onChange, fields, issueAt, path = '' } = group
  const id = useId()
  const way = wayOf(draft)
  const at = (name: string): string => (path === '' ? name : `${path}.${name}`)
  const sizes = pipeSizes.filter(({ standard }) => standard === draft['standard']).map(({ size }) => size)
  const shown = fields.filter(({ name }) =>
    BORE_NAMES.has(name) ? name === (way === 'bore' ? 'boreMm' : 'standard') : false,
  )
  return (
    <>
      <fieldset className="field bore-way" aria-describedby={`${id}-hint`}>
        <legend className="field-label">Pipe given by</legend>
        <div className="radios">
          {WAYS.map((each) => (
            <label key={each.id} className="radio">
              <input
                type="radio"
                name={id}
                checked={way === each.id}
                onChange={() => onChange(changedWay(draft, each.id))}
              />
              <span>{each.label}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <SchemaFields
        {...group}
        fields={shown.map((field) => ({ ...field, needed: true, hint: '' }))}
        onChange={(next) => onChange(next['standard'] === draft['standard'] ? next : { ...next, size: '' })}
      />
      {way === 'size' && (
        <Select
          label="Size"
          value={String(draft['size'] ?? '')}
          onChange={(size) => onChange({ ...draft, size })}
          choices={sizes.map((size) => ({ id: size, label: size }))}
          placeholder={draft['standard'] === '' ? 'choose the standard first' : undefined}
          disabled={sizes.length === 0}
          required
          issue={issueAt(at('size'))}
        />
      )}
      <SchemaFields {...group} fields={fields.filter(({ name }) => !BORE_NAMES.has(name))} />
    </>
  )
}

/** Where neither is filled in, what was chosen is kept under a name no schema knows. */
function wayOf(draft: GroupDraft): Way {
  if (draft['$way'] === 'bore' || draft['$way'] === 'size') return draft['$way']
  return draft['standard'] === '' || draft['standard'] === undefined ? 'bore' : 'size'
}

/** Only one of the two may be given: the other is put aside, and comes back when chosen again. */
function changedWay(draft: GroupDraft, way: Way): GroupDraft {
  const aside = { $bore: draft['boreMm'] ?? '', $standard: draft['standard'] ?? '', $size: draft['size'] ?? '' }
  const back = { ...draft, $way: way }
  return way === 'bore'
    ? { ...back, $standard: aside.$standard, $size: aside.$size, boreMm: draft['$bore'] ?? '', standard: '', size: '' }
    : { ...back, $bore: aside.$bore, boreMm: '', standard: draft['$standard'] ?? '', size: draft['$size'] ?? '' }
}
