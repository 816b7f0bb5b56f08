import copper from '@rillmark/reference/pipes/astm-b88.json' with { type: 'json' }
import metric from '@rillmark/reference/pipes/en-1057.json' with { type: 'json' }
import pex from '@rillmark/reference/pipes/pex-sdr9.json' with { type: 'json' }
import { pipeSizes } from '@rillmark/science/pipes/pipe-catalogue.ts'
import type { ReactNode } from 'react'
import type { GroupDraft } from '../form/draft.ts'
import { SchemaFields, type SchemaFormProps } from '../form/SchemaForm.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'

const WAYS = [
  { id: 'bore', label: 'inside diameter' },
  { id: 'size', label: 'standard and size' },
] as const
type Way = (typeof WAYS)[number]['id']

const STANDARDS = [copper, pex, metric].flatMap(({ standards }) =>
  standards.map(({ id, title }) => ({ id, label: title })),
)

const BORE_NAMES = new Set(['boreMm', 'standard', 'size'])

/** Takes over a group that asks for a bore or a standard and size: one or the other, and only the sizes there are. */
export function boreFields(group: SchemaFormProps): ReactNode | undefined {
  const names = group.fields.map(({ name }) => name)
  return [...BORE_NAMES].every((name) => names.includes(name)) ? <BoreFields {...group} /> : undefined
}

function BoreFields(group: SchemaFormProps): ReactNode {
  const { draft, onChange, fields, issueAt, path = '' } = group
  const way = wayOf(draft)
  const at = (name: string): string => (path === '' ? name : `${path}.${name}`)
  const sizes = pipeSizes.filter(({ standard }) => standard === draft['standard']).map(({ size }) => size)
  return (
    <>
      <RadioRow
        label="Pipe given by"
        value={way}
        onChange={(chosen) => onChange(changedWay(draft, chosen))}
        choices={WAYS}
      />
      {way === 'bore' && <SchemaFields {...group} fields={needed(fields.filter(({ name }) => name === 'boreMm'))} />}
      {way === 'size' && (
        <Select
          label="Standard"
          value={String(draft['standard'] ?? '')}
          onChange={(standard) => onChange({ ...draft, standard, size: '' })}
          choices={STANDARDS}
          required
          issue={issueAt(at('standard'))}
        />
      )}
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

/** Chosen, the one way is no longer an alternative to the other. */
function needed(fields: SchemaFormProps['fields']): SchemaFormProps['fields'] {
  return fields.map((field) => ({ ...field, needed: true, hint: '' }))
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
