import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { asGroup, type Draft, draftOf, fieldsOfVariant, type GroupDraft, withShape } from './draft.ts'
import type { FieldSpec, NamedField } from './field-spec.ts'
import { choiceWords, rowWord } from './field-words.ts'
import { QuantityField } from './QuantityField.tsx'
import './form.css'

/** What is wrong at one place of a form. */
export interface PlacedIssue {
  readonly path: string
  readonly words: string
}

export interface SchemaFormProps {
  readonly fields: readonly NamedField[]
  readonly draft: GroupDraft
  readonly onChange: (draft: GroupDraft) => void
  /** What is wrong, by dotted path. */
  readonly issueAt: (path: string) => string | undefined
  /** Everything wrong at a dotted path and below it. */
  readonly issuesUnder?: ((path: string) => readonly PlacedIssue[]) | undefined
  readonly path?: string | undefined
  /** Renders the fields of a group in a way of its own; undefined leaves it to the form. Asked for every group. */
  readonly special?: ((group: SchemaFormProps) => ReactNode | undefined) | undefined
}

/** A form for any object schema: one field a property, groups titled, lists as rows that can be added and taken away. */
export function SchemaForm(props: SchemaFormProps): ReactNode {
  return <div className="form schema-form">{props.special?.(props) ?? <SchemaFields {...props} />}</div>
}

/** The fields of a group without a frame, for a special group that renders the rest of its fields plainly. */
export function SchemaFields({ fields, draft, onChange, issueAt, path = '', special }: SchemaFormProps): ReactNode {
  return fields.map((field) => {
    const at = path === '' ? field.name : `${path}.${field.name}`
    const set = (next: Draft): void => onChange({ ...draft, [field.name]: next })
    return (
      <AnyField
        key={at}
        field={field}
        draft={draft[field.name] ?? ''}
        onChange={set}
        issueAt={issueAt}
        path={at}
        special={special}
      />
    )
  })
}

interface AnyFieldProps extends Pick<SchemaFormProps, 'issueAt' | 'special'> {
  readonly field: NamedField
  readonly draft: Draft
  readonly onChange: (draft: Draft) => void
  readonly path: string
}

function AnyField(props: AnyFieldProps): ReactNode {
  const { spec } = props.field
  if (spec.kind === 'group') return <GroupField {...props} fields={spec.fields} />
  if (spec.kind === 'variant') return <VariantField {...props} spec={spec} />
  if (spec.kind === 'list') return <ListField {...props} spec={spec} />
  return <PlainField {...props} />
}

function PlainField({ field, draft, onChange, issueAt, path }: AnyFieldProps): ReactNode {
  const { spec, unit, needed } = field
  const issue = issueAt(path)
  const hint = field.hint === '' ? undefined : field.hint
  const common = { label: field.label, hint, required: needed, issue }
  const text = typeof draft === 'string' ? draft : ''
  switch (spec.kind) {
    case 'flag':
      return (
        <CheckboxField label={field.label} hint={hint} issue={issue} checked={draft === true} onChange={onChange} />
      )
    case 'choice': {
      const choices = spec.choices.map((id) => ({ id, label: choiceWords(id) }))
      const leaveOut = needed || field.preset !== undefined ? [] : [{ id: '', label: 'not given' }]
      return <Select {...common} value={text} onChange={onChange} choices={[...leaveOut, ...choices]} />
    }
    case 'number':
      return (
        <QuantityField
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
  const { field, fields, onChange, issueAt, path, special } = props
  return (
    <fieldset className="schema-group">
      <legend>{field.label}</legend>
      <GroupIssue issue={issueAt(path)} />
      <SchemaForm
        fields={fields}
        draft={asGroup(props.draft)}
        onChange={onChange}
        issueAt={issueAt}
        path={path}
        special={special}
      />
    </fieldset>
  )
}

function VariantField(props: AnyFieldProps & { readonly spec: FieldSpec & { kind: 'variant' } }): ReactNode {
  const { spec, field, onChange, path, issueAt } = props
  const draft = asGroup(props.draft)
  const chosen = String(draft[spec.by] ?? '')
  const choices = spec.options.map(({ id }) => ({ id, label: choiceWords(id) }))
  return (
    <fieldset className="schema-group">
      <legend>{field.label}</legend>
      <Select
        label="What it is"
        value={chosen}
        onChange={(id) => onChange(withShape(spec, { draft, id }))}
        choices={field.needed ? choices : [{ id: '', label: 'not given' }, ...choices]}
        required={field.needed}
        issue={issueAt(`${path}.${spec.by}`) ?? issueAt(path)}
      />
      <SchemaForm {...props} fields={fieldsOfVariant(spec, chosen)} draft={draft} />
    </fieldset>
  )
}

function ListField(props: AnyFieldProps & { readonly spec: FieldSpec & { kind: 'list' } }): ReactNode {
  const { spec, field, onChange, path } = props
  const rows: readonly Draft[] = Array.isArray(props.draft) ? (props.draft as readonly Draft[]) : []
  const word = rowWord(field.name)
  return (
    <fieldset className="schema-group">
      <legend>{field.label}</legend>
      {field.hint !== '' && <p className="field-hint">{field.hint}</p>}
      <GroupIssue issue={props.issueAt(path)} />
      {rows.map((draft, index) => (
        // oxlint-disable-next-line react/no-array-index-key -- rows have no name but their place
        <div key={index} className="schema-row">
          <AnyField
            {...props}
            field={{ ...field, hint: '', needed: true, label: `${word} ${index + 1}`, spec: spec.row }}
            draft={draft}
            onChange={(next) => onChange(rows.map((old, at) => (at === index ? next : old)))}
            path={`${path}.${index}`}
          />
          {rows.length > spec.atLeast && (
            <Button kind="text" onPress={() => onChange(rows.filter((_, at) => at !== index))}>
              Take away {word.toLowerCase()} {index + 1}
            </Button>
          )}
        </div>
      ))}
      <div>
        <Button onPress={() => onChange([...rows, draftOf(spec.row, undefined)])}>Add a {word.toLowerCase()}</Button>
      </div>
    </fieldset>
  )
}

function GroupIssue({ issue }: { readonly issue: string | undefined }): ReactNode {
  if (issue === undefined) return null
  return (
    <p className="field-issue" role="alert">
      {issue}
    </p>
  )
}
