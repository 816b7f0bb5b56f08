import { resultWords } from '@rillmark/casebook/units/result-words.ts'
import type { RowDecision } from '@rillmark/casebook/results/accept.ts'
import type { ReviewedResult, ReviewedRow } from '@rillmark/casebook/results/review.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Tag } from '../kit/Tag.tsx'
import { RowDialog } from './RowDialog.tsx'
import type { Import } from './use-import.ts'
import { canAccept } from './row-groups.ts'

interface RowProps {
  readonly row: ReviewedRow
  readonly decision: RowDecision | undefined
  readonly imported: Import
}

/** One row that waits: what the file says, what it was read as, why it waits, and the ways out. */
export function RowInQuestion({ row, decision, imported }: RowProps): ReactNode {
  const [open, setOpen] = useState<'accept' | 'amend' | 'set aside'>()
  const decide = (next: RowDecision | undefined): void => imported.decide([row.row], next)
  const amends = row.results.some(({ existing }) => existing !== undefined)
  return (
    <li className="question" data-settled={decision !== undefined || undefined}>
      <div className="question-head">
        <b>Row {row.row}</b> <span className="mono">{row.label === '' ? 'no label' : row.label}</span>
        {decision !== undefined && (
          <Tag shape="check" kind="accent">
            {settledWords(decision)}
          </Tag>
        )}
      </div>
      <ul className="question-values">
        {row.results.map((result) => (
          <ValueLine key={result.column} row={row} result={result} decision={decision} />
        ))}
      </ul>
      <ul className="question-reasons">
        {row.reasons.map((reason) => (
          <li key={reason.words} data-note={!reason.blocks || undefined}>
            {reason.words}
          </li>
        ))}
      </ul>
      <ButtonRow>
        {decision === undefined ? (
          <>
            <Suggestions row={row} decide={decide} imported={imported} />
            {canAccept(row) && (
              <Button onPress={() => decide({ action: 'accept', reason: 'looked at and kept as read' })}>
                {amends ? 'Keep both' : 'Keep as read'}
              </Button>
            )}
            {amends && <Button onPress={() => setOpen('amend')}>Amend the earlier result</Button>}
            <Button onPress={() => setOpen('accept')}>Settle by hand</Button>
            <Button onPress={() => setOpen('set aside')}>Set aside</Button>
          </>
        ) : (
          <Button kind="text" name={`Open row ${row.row} again`} onPress={() => decide(undefined)}>
            Open again
          </Button>
        )}
      </ButtonRow>
      {open !== undefined && (
        <RowDialog row={row} action={open} imported={imported} onClose={() => setOpen(undefined)} />
      )}
    </li>
  )
}

function ValueLine({
  row,
  result,
  decision,
}: {
  readonly row: ReviewedRow
  readonly result: ReviewedResult
  readonly decision: RowDecision | undefined
}): ReactNode {
  const settled =
    decision === undefined || decision.action === 'set aside' ? undefined : decision.values?.[result.column]
  const value = settled ?? result.value
  const written = row.read.asWritten[result.column]
  return (
    <li>
      <span className="faint">{result.column}</span> <span className="mono">{written ?? 'empty'}</span>
      <span aria-hidden="true"> → </span>
      <span>{value === undefined ? 'not read' : resultWords(value, { method: result.method })}</span>
    </li>
  )
}

/** Each likely reading as one press: a suggested value, or a label that nearly fits. */
function Suggestions({
  row,
  decide,
  imported,
}: {
  readonly row: ReviewedRow
  readonly decide: (decision: RowDecision) => void
  readonly imported: Import
}): ReactNode {
  const values = row.reasons.flatMap(({ column, suggestion }) =>
    column === undefined || suggestion === undefined ? [] : [{ column, suggestion }],
  )
  const labels = row.reasons.flatMap(({ nearest }) => nearest ?? [])
  const method = (column: string): string => row.results.find((result) => result.column === column)?.method ?? 'culture'
  const relabel = (label: string): void =>
    imported.change({ relabelled: new Map([...(imported.file?.relabelled ?? []), [row.row, label]]) })
  return (
    <>
      {row.sample !== undefined || row.registers
        ? values.map(({ column, suggestion }) => (
            <Button
              key={column + JSON.stringify(suggestion)}
              onPress={() =>
                decide({
                  action: 'accept',
                  values: { [column]: suggestion },
                  reason: `read as ${resultWords(suggestion, { method: method(column) })}`,
                })
              }
            >
              Read as {resultWords(suggestion, { method: method(column) })}
            </Button>
          ))
        : null}
      {labels.map((label) => (
        <Button key={label} onPress={() => relabel(label)}>
          It is {label}
        </Button>
      ))}
    </>
  )
}

function settledWords(decision: RowDecision): string {
  if (decision.action === 'set aside') return `set aside: ${decision.reason}`
  if (decision.action === 'amend') return `amends: ${decision.reason}`
  return decision.reason ?? 'kept as read'
}
