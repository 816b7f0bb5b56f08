import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { DateField } from '../kit/DateField.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { type Draft, draftOf } from './draft.ts'
import type { FieldSpec, NamedField } from './field-spec.ts'
import './form.css'

export interface SchemaFormProps {
  readonly fields: readonly NamedField[]
  readonly draft: { readonly [name: string]: Draft }
  readonly onChange: (draft: { readonly [name: string]: Draft }) => void
  /** What is wrong, by dotted path. */
  readonly issueAt: (path: string) => string | undefined
  readonly path?: string | undefined
}

/** A form for any object schema: one field a property, groups titled, lists as rows that can be added and taken away. */
export function SchemaForm({ fields, draft, onChange, issueAt, path = '' }: SchemaFormProps): ReactNode {
  return (
    <div className="form schema-form">
      {fields.map((field) => {
        const at = path === '' ? field.name : `${path}.${field.name}`
        const set = (next: Draft): void => onChange({ ...draft, [field.name]: next })
        return (
          <AnyField key={at} field={field} draft={draft[field.name] ?? ''} onChange={set} issueAt={issueAt} path={at} />
        )
      })}
    </div>
  )
}

interface AnyFieldProps {
  readonly field: NamedField
  readonly draft: Draft
  readonly onChange: (draft: Draft) => void
  readonly issueAt: (path: string) => string | undefined
  readonly path: string
}

function AnyField(props: AnyFieldProps): ReactNode {
  const { spec } = props.field
  if (spec.kind === 'group') return <GroupField {...props} fields={spec.fields} />
  if (spec.kind === 'list') return <ListField {...props} spec={spec} />
  return <PlainField {...props} />
}

function PlainField({ field, draft, onChange, issueAt, path }: AnyFieldProps): ReactNode {
  const { spec, unit, needed } = field
  const common = {
    label: field.label,
    hint: field.hint === '' ? undefined : field.hint,
    required: needed,
    issue: issueAt(path),
  }
  const text = typeof draft === 'string' ? draft : ''
  switch (spec.kind) {
    case 'flag':
      return <CheckboxField label={field.label} checked={draft === true} onChange={onChange} />
    case 'choice':
      return (
        <Select {...common} value={text} onChange={onChange} choices={spec.choices.map((id) => ({ id, label: id }))} />
      )
    case 'number':
      return (
        <NumberField
          {...common}
          value={text}
          onChange={onChange}
          whole={spec.whole}
          min={spec.min}
          max={spec.max}
          unit={unit === '' ? undefined : unit}
        />
      )
    case 'date':
      return <DateField {...common} value={text} onChange={onChange} />
    case 'json':
      return <TextArea {...common} value={text} onChange={onChange} rows={5} mono />
    default:
      return spec.kind === 'text' && spec.long ? (
        <TextArea {...common} value={text} onChange={onChange} />
      ) : (
        <TextField {...common} value={text} onChange={onChange} />
      )
  }
}

function GroupField(props: AnyFieldProps & { readonly fields: readonly NamedField[] }): ReactNode {
  const inner =
    typeof props.draft === 'object' && !Array.isArray(props.draft)
      ? (props.draft as { readonly [name: string]: Draft })
      : {}
  return (
    <fieldset className="schema-group">
      <legend>{props.field.label}</legend>
      <SchemaForm
        fields={props.fields}
        draft={inner}
        onChange={props.onChange}
        issueAt={props.issueAt}
        path={props.path}
      />
    </fieldset>
  )
}

function ListField(props: AnyFieldProps & { readonly spec: FieldSpec & { kind: 'list' } }): ReactNode {
  const { spec, field, onChange, path } = props
  const rows: readonly Draft[] = Array.isArray(props.draft) ? (props.draft as readonly Draft[]) : []
  const row: NamedField = { ...field, hint: '', needed: false, spec: spec.row }
  return (
    <fieldset className="schema-group">
      <legend>{field.label}</legend>
      {field.hint !== '' && <p className="field-hint">{field.hint}</p>}
      {rows.map((draft, index) => (
        // oxlint-disable-next-line react/no-array-index-key -- rows have no name but their place
        <div key={index} className="schema-row">
          <AnyField
            field={{ ...row, label: `${index + 1}` }}
            draft={draft}
            onChange={(next) => onChange(rows.map((old, at) => (at === index ? next : old)))}
            issueAt={props.issueAt}
            path={`${path}.${index}`}
          />
          <Button kind="text" onPress={() => onChange(rows.filter((_, at) => at !== index))}>
            Take away
          </Button>
        </div>
      ))}
      <Button onPress={() => onChange([...rows, draftOf(spec.row, undefined)])}>Add</Button>
    </fieldset>
  )
}
