import { referenceFor, type ReferenceTarget } from '@rillmark/casebook/control/reference-measures.ts'
import type { MeasureKind } from '@rillmark/casebook/control/measure-progress.ts'
import type { ReactNode } from 'react'
import { Caution } from '../kit/Caution.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Note } from '../kit/Note.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { type TargetDraft, QUANTITIES, unitFor } from './measure-draft.ts'

/** What is to be reached: one of the published targets, each with its source, or one's own; and what speaks against it. */
export function TargetFields(props: {
  readonly measure: MeasureKind
  readonly target: TargetDraft
  readonly onChange: (target: TargetDraft) => void
}): ReactNode {
  const { measure, target, onChange } = props
  const { targets, against, cautions } = referenceFor(measure)
  const take = (id: string): void => {
    const published = targets.find((each) => each.id === id)
    onChange(published === undefined ? { ...target, from: id } : fromReference(published))
  }
  return (
    <div className="stack">
      {targets.length > 0 && (
        <RadioRow
          label="Target"
          stacked
          value={target.from}
          onChange={take}
          choices={[
            ...targets.map((each) => ({
              id: each.id,
              label: `${each.title}, at the ${each.at}`,
              hint: ` ${sourceWords(each)}`,
            })),
            { id: 'own', label: 'another target' },
            { id: 'none', label: 'no target to measure' },
          ]}
        />
      )}
      {target.from !== 'none' && <TargetAmount target={target} onChange={onChange} />}
      {against.length > 0 && (
        <Note kind="warn">
          <ul className="control-list">
            {against.map(({ text, source, known }) => (
              <li key={text}>
                {text} <span className="control-source">{sourceWords({ source, known })}</span>
              </li>
            ))}
          </ul>
        </Note>
      )}
      {cautions.map(({ text }) => (
        <Caution key={text}>{text}</Caution>
      ))}
    </div>
  )
}

function TargetAmount(props: {
  readonly target: TargetDraft
  readonly onChange: (target: TargetDraft) => void
}): ReactNode {
  const { target, onChange } = props
  return (
    <FormRow>
      <Select
        label="Quantity"
        value={target.quantity}
        onChange={(quantity) => onChange({ ...target, from: 'own', quantity, unit: unitFor(quantity) })}
        choices={QUANTITIES.map((id) => ({ id, label: id }))}
        width="narrow"
      />
      <QuantityField
        label="At least"
        unit={target.unit}
        value={target.value}
        onChange={(value) => onChange({ ...target, from: 'own', value })}
      />
      {target.quantity !== 'flush time' && (
        <QuantityField
          label="Held for"
          unit="min"
          value={target.minutes}
          onChange={(minutes) => onChange({ ...target, from: 'own', minutes })}
        />
      )}
    </FormRow>
  )
}

function fromReference({ id, quantity, value, unit, minutes }: ReferenceTarget): TargetDraft {
  return { from: id, quantity, value: String(value), unit, minutes: minutes === undefined ? '' : String(minutes) }
}

function sourceWords({ source, known, note }: { source: string; known: string; note?: string | undefined }): string {
  const knownWords = known === 'memory' ? 'from memory, verify before use' : known
  return `${source} (${[knownWords, note].filter((part) => part !== undefined).join('; ')}).`
}
