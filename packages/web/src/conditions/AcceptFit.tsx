import { acceptedFitOf } from '@rillmark/casebook/calibration/accepted-fit-of.ts'
import type { Calibration } from '@rillmark/casebook/calibration/calibration.ts'
import { fittedWords, rangedWords } from '@rillmark/casebook/calibration/fit-words.ts'
import { systemEntryOf } from '@rillmark/casebook/conditions/system-entry.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Caution } from '../kit/Caution.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Note } from '../kit/Note.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { useWriting } from '../store/use-writing.ts'

export interface AcceptFitProps {
  readonly found: Calibration
  readonly round: string
  readonly seed: number
}

/** Takes the values of a fit over into the record, after saying what that changes. */
export function AcceptFit(props: AcceptFitProps): ReactNode {
  const [asking, setAsking] = useState(false)
  return (
    <div>
      <Button onPress={() => setAsking(true)}>Take the fitted values over</Button>
      {asking && <AcceptDialog {...props} onClose={() => setAsking(false)} />}
    </div>
  )
}

function AcceptDialog({ found, round, seed, onClose }: AcceptFitProps & { readonly onClose: () => void }): ReactNode {
  const { state } = useInvestigation()
  const { units } = usePreferences()
  const { say } = useToasts()
  const { issues, busy, write } = useWriting()
  const [note, setNote] = useState('')
  const take = async (): Promise<void> => {
    const systemEntry = systemEntryOf(state.record) ?? ''
    const typed = note.trim()
    const body = acceptedFitOf({ found, systemEntry, round, seed, note: typed === '' ? undefined : typed })
    if (!(await write('fit.accepted', body))) return
    say('The fitted values are in the record. Work the water out again to see it with them.')
    onClose()
  }
  return (
    <WritingDialog
      title={`Take the values fitted to round ${round} over?`}
      act="Put into the record"
      issues={issues}
      busy={busy}
      onWrite={take}
      onClose={onClose}
      size="wide"
    >
      <p>
        From then on predictions, what-if and the report take {counted(found.inputs.length, 'value')} in place of those
        described. The description stays as it is. A prediction made before counts as out of date. Withdraw the entry,
        or change the description, and the values are no longer taken. Each stands with its{' '}
        {Math.round(found.level * 100)} % range:
      </p>
      <Doubts found={found} />
      <KeyValue
        facts={found.inputs.map(({ words, unit, before, after }) => ({
          key: words,
          value: `${rangedWords(after, { unit, units })} instead of ${fittedWords(before.value, { unit, units })}`,
        }))}
      />
      <TextField
        label="Note"
        hint="Why, and what was seen on site. May stay empty."
        value={note}
        onChange={setNote}
        width="full"
      />
    </WritingDialog>
  )
}

/** What speaks against taking the values as they are. */
function Doubts({ found }: { readonly found: Calibration }): ReactNode {
  const { findings, unexplained, settled, inputs } = found
  const strained = inputs.filter((one) => one.strained)
  return (
    <>
      {findings.length > 0 && (
        <Caution>
          {`These values hold only if this is so, and nobody has seen it yet: ${findings.map(({ words }) => words).join(' ')} Go and look first.`}
        </Caution>
      )}
      {unexplained.length > 0 && (
        <Note kind="warn">
          {counted(unexplained.length, 'reading')} not explained: the values do not account for it all.
        </Note>
      )}
      {strained.length > 0 && (
        <Note kind="warn">
          Further than is believed likely: {strained.map(({ words }) => words).join('; ')}. Something else may be behind
          it.
        </Note>
      )}
      {!settled && <Note kind="warn">The fit had not settled: its ranges may be too narrow.</Note>}
    </>
  )
}
