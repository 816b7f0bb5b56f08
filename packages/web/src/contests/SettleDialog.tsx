import type { ContestDecision } from '@rillmark/casebook/contests/kinds.ts'
import type { OpenAccounts } from '@rillmark/casebook/contests/open-accounts.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useWriting } from '../store/use-writing.ts'

interface SettleDialogProps {
  readonly accounts: OpenAccounts
  readonly decision: ContestDecision
  readonly title: string
  readonly onClose: () => void
}

/** Asks why, and writes which account stands. Both stay in the record. */
export function SettleDialog({ accounts, decision, title, onClose }: SettleDialogProps): ReactNode {
  const { issues, busy, write } = useWriting()
  const [reason, setReason] = useState('')
  const { standing, first, second } = accounts
  const settle = async (): Promise<void> => {
    const [against] = first
    const pair = standing === 'differ' && against !== undefined ? { against: against.id } : {}
    if (await write('contest.settled', { contested: second.id, ...pair, decision, reason })) onClose()
  }
  return (
    <Dialog
      title={`${title}?`}
      open
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" busy={busy} disabled={reason.trim() === ''} onPress={() => void settle()}>
            {title}
          </Button>
          <Button onPress={onClose}>Not yet</Button>
        </>
      }
    >
      <div className="form">
        <p>{CONSEQUENCE[decision]} Both stay in the record, with your reason.</p>
        <ProblemList problems={issues} />
        <TextField label="Reason" value={reason} onChange={setReason} required width="full" focusFirst />
      </div>
    </Dialog>
  )
}

const CONSEQUENCE: Readonly<Record<ContestDecision, string>> = {
  'first stands': 'The second counts for nothing.',
  'second stands': 'From here on the second counts, and the first no more.',
  'both stand': 'Both go on counting.',
}
