import type { ContestDecision } from '@rillmark/casebook/contests/kinds.ts'
import type { OpenAccounts } from '@rillmark/casebook/contests/open-accounts.ts'
import { countsNoMore, settlementsOf } from '@rillmark/casebook/contests/told-twice.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { AccountWords } from './AccountWords.tsx'

interface SettleDialogProps {
  /** what is settled at once: one pair, or all of a visit */
  readonly pairs: readonly OpenAccounts[]
  readonly decision: ContestDecision
  readonly title: string
  readonly onClose: () => void
}

/** Asks why, says what counts no more, and writes which account stands: all that is asked for, or nothing. Both stay in the record. */
export function SettleDialog({ pairs, decision, title, onClose }: SettleDialogProps): ReactNode {
  const { proposeAll } = useInvestigation()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const [busy, setBusy] = useState(false)
  const [reason, setReason] = useState('')
  const settle = async (): Promise<void> => {
    setBusy(true)
    const bodies = settlementsOf(pairs, { decision, reason: reason.trim() })
    const proposed = await proposeAll(bodies.map((body) => ({ kind: 'contest.settled' as const, body })))
    setBusy(false)
    if (proposed.ok) onClose()
    else setIssues(proposed.refused.flatMap((refused) => refused.issues))
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
        <CountsNoMore pairs={pairs} decision={decision} />
        {issues.length > 0 && (
          <Note kind="bad">
            The record still speaks against it. Settle or withdraw what is in the way first:
            <ul>
              {issues.map(({ path, expected, received }) => (
                <li key={`${path} ${received}`}>
                  needed: {expected}; found: {received}
                </li>
              ))}
            </ul>
          </Note>
        )}
        <TextField label="Reason" value={reason} onChange={setReason} required width="full" focusFirst />
      </div>
    </Dialog>
  )
}

function CountsNoMore({ pairs, decision }: Pick<SettleDialogProps, 'pairs' | 'decision'>): ReactNode {
  const aside = countsNoMore(pairs, decision)
  if (aside.length === 0) return null
  return (
    <section className="stack">
      <h3>From here on {aside.length === 1 ? 'this counts' : `these ${aside.length} count`} no more</h3>
      {aside.map((account) => (
        <AccountWords key={account.id} account={account} />
      ))}
    </section>
  )
}

const CONSEQUENCE: Readonly<Record<ContestDecision, string>> = {
  'first stands': 'What the second says counts for nothing.',
  'second stands': 'From here on what the second says counts, in place of the first.',
  'both stand': 'Both go on counting.',
}
