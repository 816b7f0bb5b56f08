import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { pastedBatch, pastedWords } from '@rillmark/exchange/cases/pasted-batch.ts'
import { PASTED_COLUMNS } from '@rillmark/exchange/cases/pasted-cases.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Progress } from '../kit/Progress.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { ProposedAll } from '../store/investigation-store.ts'
import { type PastedRows, usePastedRows } from './use-pasted-rows.ts'

/** Takes rows copied from a spreadsheet; says everything wrong before anything is recorded, and records all of them or none. */
export function PasteDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { proposeAll, state } = useInvestigation()
  const { say } = useToasts()
  const rows = usePastedRows()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const [busy, setBusy] = useState(false)
  const issues = rows.read?.issues ?? []
  const batch = rows.read && pastedBatch(rows.read, state.cases)
  const leftOut = batch === undefined ? [] : pastedWords(batch)
  const what =
    batch === undefined || batch.proposals.length === 0
      ? ''
      : ` ${counted(batch.cases, 'case')}, ${counted(batch.exposures, 'exposure')}`

  const record = async (proposals: readonly Proposal[]): Promise<void> => {
    setBusy(true)
    const proposed = await proposeAll(proposals)
    setBusy(false)
    setRefused(proposed.ok ? [] : againstEach(proposals, proposed.refused))
    if (!proposed.ok) return
    say([`Recorded:${what}.`, ...leftOut].join(' '))
    onClose()
  }

  return (
    <Dialog
      title="Paste cases from a spreadsheet"
      size="wide"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button
            kind="primary"
            disabled={what === '' || issues.length > 0 || busy}
            onPress={() => void record(batch?.proposals ?? [])}
          >
            {`Record${what}`}
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <RowsField rows={rows} />
        <ProblemList problems={rows.refused === undefined ? [] : [rows.refused]} title="Not taken" />
        <ProblemList problems={issues} title="To settle in the rows first" />
        <ProblemList problems={refused} title="Nothing of it was recorded" />
        {leftOut.length > 0 && (
          <Note>
            {leftOut.map((words) => (
              <p key={words}>{words}</p>
            ))}
          </Note>
        )}
      </div>
    </Dialog>
  )
}

/** The text area, or what is read beside it. */
function RowsField({ rows }: { readonly rows: PastedRows }): ReactNode {
  if (rows.asideLines === undefined)
    return (
      <TextArea
        label="Rows"
        hint={`One line an exposure. Columns: ${PASTED_COLUMNS.join(', ')}; with a head row in any order. Dates as year-month-day. Codes, never names.`}
        value={rows.text}
        onChange={rows.type}
        onArrival={rows.arrive}
        rows={9}
        mono
      />
    )
  if (rows.read === undefined)
    return <Progress label={`Reading ${rows.asideLines} lines`} fraction={rows.share} onCancel={rows.takeAway} />
  return (
    <Note>
      <p>{rows.asideLines} lines are read. Mend any fault in the spreadsheet and paste again.</p>
      <Button onPress={rows.takeAway}>Take them away</Button>
    </Note>
  )
}

/** Each objection with the code of the case it speaks of. */
function againstEach(
  proposals: readonly Proposal[],
  refused: Extract<ProposedAll, { ok: false }>['refused'],
): readonly Issue[] {
  return refused.flatMap(({ at, issues }) => {
    const body = at === undefined ? undefined : proposals[at]?.body
    const of = body === undefined ? '' : 'caseCode' in body ? body.caseCode : 'code' in body ? body.code : ''
    return issues.map((found) => ({ ...found, path: `${of} ${found.path}`.trim() }))
  })
}
