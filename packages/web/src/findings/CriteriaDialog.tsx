import { acceptOwnCriteriaSet } from '@rillmark/casebook/criteria/criteria-sets.ts'
import type { CriteriaSet } from '@rillmark/casebook/criteria/criteria-set.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { chosenCriteria, offeredCriteria } from '@rillmark/casebook/findings/chosen-criteria.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'

/** Whose rules apply: one of the sets that come along, or a set of one's own, which is checked and kept whole in the record. */
export function CriteriaDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { state, propose } = useInvestigation()
  const now = chosenCriteria(state)
  const [own, setOwn] = useState<CriteriaSet | undefined>(now.kind === 'chosen' && now.own ? now.set : undefined)
  const [picked, setPicked] = useState(now.kind === 'chosen' ? now.set.id : '')
  const [reason, setReason] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const sets = [...offeredCriteria(state).filter(({ id }) => id !== own?.id), ...(own === undefined ? [] : [own])]
  const save = async (): Promise<void> => {
    const set = sets.find(({ id }) => id === picked)
    if (set === undefined) return setIssues([issue('criteria', { expected: 'a choice', received: picked })])
    const body = {
      criteria: set.id,
      version: set.version,
      ...(set === own ? { own } : {}),
      ...(reason.trim() === '' ? {} : { reason }),
    }
    const proposed = await propose('criteria.chosen', body)
    if (proposed.ok) onClose()
    else setIssues(proposed.issues)
  }
  const take = async (file: File): Promise<void> => {
    const read = acceptOwnCriteriaSet(parsed(await file.text()))
    setIssues(read.ok ? [] : read.issues)
    if (!read.ok) return
    setOwn(read.value)
    setPicked(read.value.id)
  }
  return (
    <Dialog
      title="Whose criteria apply?"
      open
      size="wide"
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" disabled={picked === ''} onPress={() => void save()}>
            Use this set
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        <RadioRow
          label="Criteria set"
          stacked
          value={picked}
          onChange={setPicked}
          choices={sets.map(({ id, title, jurisdiction, status, date }) => ({
            id,
            label: title,
            hint: `${jurisdiction}; ${status}, read on ${date}`,
          }))}
        />
        <FileDrop
          label="a criteria set of your own"
          hint="JSON, in the form of rillmark schema criteria-set."
          accept={['.json', 'application/json']}
          onFiles={([file]) => file !== undefined && void take(file)}
        />
        <TextField label="Why this set" value={reason} onChange={setReason} width="full" />
      </div>
    </Dialog>
  )
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return 'text that is not JSON'
  }
}
