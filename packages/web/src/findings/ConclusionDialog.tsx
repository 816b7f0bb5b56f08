import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { type Focus, focusRows, placesOf } from '@rillmark/casebook/findings/focus-rows.ts'
import type { Fact } from '@rillmark/casebook/findings/headline.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import { type EvidenceOffer, evidenceOffers } from './evidence-offers.ts'

type Body = BodyOf<'finding.concluded'>
type Evidence = Body['evidence'][number]

interface DialogProps {
  readonly rows: readonly SampleRow[]
  readonly facts: readonly Fact[]
  readonly focus: Focus | undefined
  readonly amends: EffectiveEntry<'finding.concluded'> | undefined
  readonly onClose: () => void
}

/** Writes or amends a conclusion: the statement, what of the record it stands on, how strong it is, what would change it. */
export function ConclusionDialog({ rows, facts, focus, amends, onClose }: DialogProps): ReactNode {
  const { state } = useInvestigation()
  const [body, setBody] = useState<Body>(
    () =>
      amends?.body ?? {
        statement: '',
        strength: 'weak',
        evidence: [],
        components: [...placesOf(focus === undefined ? [] : focusRows(rows, focus))],
      },
  )
  const [reason, setReason] = useState('')
  const { issues, busy, write } = useWriting()
  const offers = useMemo(() => evidenceOffers(state, { rows, facts }), [state, rows, facts])
  const set = (change: Partial<Body>): void => setBody({ ...body, ...change })
  const save = async (): Promise<void> => {
    const { wouldChangeIt, ...rest } = body
    const given = { ...rest, ...(wouldChangeIt === undefined || wouldChangeIt.trim() === '' ? {} : { wouldChangeIt }) }
    const corrects = amends === undefined ? {} : { corrects: { entry: amends.id, reason } }
    if (await write('finding.concluded', given, corrects)) onClose()
  }
  return (
    <WritingDialog
      title={amends === undefined ? 'Write a conclusion' : 'Amend the conclusion'}
      act="Record"
      size="wide"
      issues={issues}
      busy={busy}
      onWrite={save}
      onClose={onClose}
    >
      <TextArea
        label="Conclusion"
        hint="What you conclude, in one or two sentences."
        value={body.statement}
        onChange={(statement) => set({ statement })}
        required
      />
      <EvidenceFields evidence={body.evidence} offers={offers} onChange={(evidence) => set({ evidence })} />
      <StrengthFields body={body} set={set} />
      {amends !== undefined && (
        <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />
      )}
    </WritingDialog>
  )
}

function StrengthFields({
  body,
  set,
}: {
  readonly body: Body
  readonly set: (change: Partial<Body>) => void
}): ReactNode {
  return (
    <>
      <RadioRow
        label="Strength"
        value={body.strength}
        onChange={(strength) => set({ strength })}
        choices={(['weak', 'moderate', 'strong'] as const).map((id) => ({ id, label: id }))}
      />
      <TextArea
        label="What would change it"
        hint="The measurement or news that would make you think again."
        value={body.wouldChangeIt ?? ''}
        onChange={(wouldChangeIt) => set({ wouldChangeIt })}
        required={body.strength === 'strong'}
      />
    </>
  )
}

function EvidenceFields({
  evidence,
  offers,
  onChange,
}: {
  readonly evidence: readonly Evidence[]
  readonly offers: readonly EvidenceOffer[]
  readonly onChange: (evidence: Evidence[]) => void
}): ReactNode {
  const [text, setText] = useState('')
  const add = (id: string): void => {
    const offer = offers.find((each) => each.id === id)
    if (offer === undefined || evidence.some(({ ref, words }) => ref === offer.ref && words === offer.words)) return
    onChange([...evidence, { ref: offer.ref, words: offer.words, speaks: 'for' }])
    setText('')
  }
  const put = (index: number, change: Partial<Evidence>): void =>
    onChange(evidence.map((each, at) => (at === index ? { ...each, ...change } : each)))
  return (
    <div className="stack">
      <ComboBox
        label="Attach evidence"
        hint="A counted fact, a result, a reading, an isolate or an exposure."
        value={text}
        onChange={setText}
        onChoose={add}
        choices={offers.map(({ id, words }) => ({ id, label: words }))}
        width="full"
      />
      <ul className="evidence-list" aria-label="Evidence attached">
        {evidence.map(({ ref, words, speaks }, index) => (
          <li key={ref + words}>
            <span>{words}</span>
            <ButtonRow>
              <Button
                kind="text"
                pressed={speaks === 'for'}
                name={`speaks for: ${words}`}
                onPress={() => put(index, { speaks: 'for' })}
              >
                {speaks === 'for' ? '+ speaks for' : 'for'}
              </Button>
              <Button
                kind="text"
                pressed={speaks === 'against'}
                name={`speaks against: ${words}`}
                onPress={() => put(index, { speaks: 'against' })}
              >
                {speaks === 'against' ? '− speaks against' : 'against'}
              </Button>
              <Button
                kind="text"
                name={`leave out: ${words}`}
                onPress={() => onChange(evidence.filter((_, at) => at !== index))}
              >
                leave out
              </Button>
            </ButtonRow>
          </li>
        ))}
      </ul>
    </div>
  )
}
