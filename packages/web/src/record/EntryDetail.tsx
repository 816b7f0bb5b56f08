import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { STEP_WORDS } from '@rillmark/casebook/entry/steps.ts'
import { stopTitles } from '@rillmark/casebook/fieldwork/stops.ts'
import type { ListedEntry } from '@rillmark/casebook/record/entry-list.ts'
import { FINAL } from '@rillmark/casebook/record/rules.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { WithdrawDialog } from '../entry/WithdrawDialog.tsx'
import { fieldsOf } from '../form/field-spec.ts'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { AmendDialog } from './AmendDialog.tsx'
import { BodyFacts } from './BodyFacts.tsx'
import { InChain } from './InChain.tsx'
import { StandingTags } from './StandingTags.tsx'
import { VersionsPart } from './VersionsPart.tsx'

export interface EntryDetailProps {
  readonly chosen: ListedEntry
  readonly listed: readonly ListedEntry[]
  readonly onSelect: (id: string | undefined) => void
}

/** Everything about one entry: what it says, who wrote it where and when, its versions, its place in the chain. */
export function EntryDetail({ chosen, listed, onSelect }: EntryDetailProps): ReactNode {
  const { state, sync } = useInvestigation()
  const titles = useDerived(stopTitles)
  const { entry, number, title } = chosen
  const fields = useMemo(() => fieldsOf(KINDS[entry.kind].body), [entry.kind])
  const waits = number > listed.length - sync.pending
  const versions = state.record.versions.get(state.record.firstOf.get(entry.id) ?? '')
  return (
    <div className="stack record-detail">
      <div className="record-detail-head">
        <h2>
          No. {number} · {title}
        </h2>
        <Button kind="text" onPress={() => onSelect(undefined)}>
          Close
        </Button>
      </div>
      <p className="quiet">{entryWords(entry, titles)}</p>
      <StandingTags row={chosen} waits={waits} />
      <Acts chosen={chosen} latest={versions?.amendments.at(-1) ?? versions?.first ?? entry} />
      <h3>What it says</h3>
      <BodyFacts body={entry.body} fields={fields} />
      {entry.corrects !== undefined && (
        <p>
          <b>Reason:</b> {entry.corrects.reason}
        </p>
      )}
      <VersionsPart entry={entry} listed={listed} fields={fields} onSelect={onSelect} />
      <h3>Who, where, when</h3>
      <KeyValue
        facts={[
          { key: 'Written by', value: entry.author },
          { key: 'At', value: wallClock(entry), note: `local time, ${entry.offset} from UTC` },
          { key: 'Instant', value: <span className="mono">{entry.instant}</span> },
          { key: 'Device', value: <span className="mono record-id">{entry.device}</span> },
          { key: 'Order on that device', value: entry.deviceSequence },
          {
            key: 'Signature',
            value:
              entry.signature === undefined
                ? 'none: who wrote it stands on the word of whoever brought it'
                : 'by the key of that device',
          },
          { key: 'Step', value: STEP_WORDS[chosen.step] },
          { key: 'Kind', value: <span className="mono">{entry.kind}</span> },
          { key: 'Id', value: <span className="mono record-id">{entry.id}</span> },
        ]}
      />
      <h3>In the chain</h3>
      <InChain entry={entry} number={number} waits={waits} />
    </div>
  )
}

function Acts(props: { readonly chosen: ListedEntry; readonly latest: ListedEntry['entry'] }): ReactNode {
  const { chosen, latest } = props
  const [open, setOpen] = useState<'amend' | 'withdraw'>()
  if (['withdrawal', 'withdrawn', 'set aside'].includes(chosen.standing) || FINAL.has(chosen.entry.kind)) return null
  const close = (): void => setOpen(undefined)
  const words = `“${entryWords(latest)}”`
  return (
    <>
      <ButtonRow>
        <Button onPress={() => setOpen('amend')}>Amend</Button>
        <Button kind="danger" onPress={() => setOpen('withdraw')}>
          Withdraw
        </Button>
      </ButtonRow>
      {open === 'amend' && <AmendDialog entry={latest} mode="amend" onClose={close} />}
      {open === 'withdraw' && <WithdrawDialog id={latest.id} words={words} onClose={close} />}
    </>
  )
}
