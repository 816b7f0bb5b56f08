import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { PASTED_COLUMNS, readPastedCases } from '@rillmark/exchange/cases/pasted-cases.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'

/** Takes rows copied from a spreadsheet; says everything wrong before anything is recorded. */
export function PasteDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { propose, state } = useInvestigation()
  const { say } = useToasts()
  const [text, setText] = useState('')
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const read = readPastedCases(text)
  const fresh = read.cases.filter(({ code }) => !state.cases.cases.has(code))

  const record = async (): Promise<void> => {
    const problems: Issue[] = []
    for (const body of fresh) {
      const proposed = await propose('case.recorded', body)
      if (!proposed.ok)
        problems.push(...proposed.issues.map((found) => ({ ...found, path: `${body.code} ${found.path}` })))
    }
    for (const body of read.exposures) {
      const proposed = await propose('exposure.recorded', body)
      if (!proposed.ok)
        problems.push(...proposed.issues.map((found) => ({ ...found, path: `${body.caseCode} ${found.path}` })))
    }
    setRefused(problems)
    if (problems.length > 0) return
    say(`${counted(fresh.length, 'case')} and ${counted(read.exposures.length, 'exposure')} recorded.`)
    onClose()
  }

  const something = fresh.length + read.exposures.length > 0
  return (
    <Dialog
      title="Paste cases from a spreadsheet"
      size="wide"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" disabled={!something || read.issues.length > 0} onPress={() => void record()}>
            {something
              ? `Record ${counted(fresh.length, 'case')}, ${counted(read.exposures.length, 'exposure')}`
              : 'Record'}
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <TextArea
          label="Rows"
          hint={`One line an exposure. Columns: ${PASTED_COLUMNS.join(', ')}; with a head row in any order. Dates as year-month-day. Codes, never names.`}
          value={text}
          onChange={setText}
          rows={9}
          mono
        />
        <ProblemList
          problems={refused.length > 0 ? refused : read.issues}
          title={refused.length > 0 ? 'Not recorded' : 'To settle in the rows first'}
        />
      </div>
    </Dialog>
  )
}
