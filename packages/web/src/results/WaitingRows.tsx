import type { RowDecision } from '@rillmark/casebook/results/accept.ts'
import { TRAPS } from '@rillmark/casebook/results/read-row.ts'
import type { ReviewedRow } from '@rillmark/casebook/results/review.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Section } from '../kit/Section.tsx'
import type { Import } from './use-import.ts'
import { RowInQuestion } from './RowInQuestion.tsx'
import { canAccept, type RowGroup, waitingGroups } from './row-groups.ts'

/** Rows a person has to look at, gathered by what is wrong with them. */
export function WaitingRows({
  rows,
  imported,
}: {
  readonly rows: readonly ReviewedRow[]
  readonly imported: Import
}): ReactNode {
  const groups = waitingGroups(rows)
  if (groups.length === 0) return <p className="quiet">No row waits: every one is plain, or settled by you.</p>
  return groups.map((group) => <Group key={group.traps.join('|')} group={group} imported={imported} />)
}

const FIRST_ROWS = 20

function Group({ group, imported }: { readonly group: RowGroup; readonly imported: Import }): ReactNode {
  const [all, setAll] = useState(false)
  const { traps, rows } = group
  const title = sentence(traps.map((trap) => TRAPS[trap]).join(', '))
  const decisions = imported.file?.decisions
  const open = rows.filter(({ row }) => decisions?.has(row) !== true).length
  const shown = all ? rows : rows.slice(0, FIRST_ROWS)
  const decideAll = (decision: RowDecision | undefined): void =>
    imported.decide(
      rows.map(({ row }) => row),
      decision,
    )
  return (
    <Section title={title} aside={open === 0 ? 'all settled' : `${open} of ${rows.length} open`}>
      {rows.length > 1 && (
        <ButtonRow>
          {rows.every(canAccept) && (
            <Button onPress={() => decideAll({ action: 'accept', reason: 'looked at and kept as read' })}>
              Keep all {rows.length} as read
            </Button>
          )}
          <Button onPress={() => decideAll({ action: 'set aside', reason: title.toLowerCase() })}>
            Set all {rows.length} aside
          </Button>
          {open < rows.length && (
            <Button kind="text" onPress={() => decideAll(undefined)}>
              Open them again
            </Button>
          )}
        </ButtonRow>
      )}
      <ul className="question-list">
        {shown.map((row) => (
          <RowInQuestion key={row.row} row={row} decision={decisions?.get(row.row)} imported={imported} />
        ))}
      </ul>
      {shown.length < rows.length && <Button onPress={() => setAll(true)}>Show all {rows.length} rows</Button>}
    </Section>
  )
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}
