import { localDate } from '@rillmark/casebook/units/local-time.ts'
import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import type { Fact } from '@rillmark/casebook/findings/headline.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { ReasonList } from '../kit/ReasonList.tsx'
import { Section } from '../kit/Section.tsx'
import { WithdrawDialog } from '../entry/WithdrawDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { ConclusionDialog } from './ConclusionDialog.tsx'

interface ConclusionsProps {
  readonly rows: readonly SampleRow[]
  readonly facts: readonly Fact[]
  readonly focus: Focus | undefined
  readonly onFocus: (focus: Focus) => void
}

type Conclusion = EffectiveEntry<'finding.concluded'>

/** What the user concludes, each with its evidence, its strength, and what would change it. */
export function Conclusions(props: ConclusionsProps): ReactNode {
  const { state } = useInvestigation()
  const [open, setOpen] = useState<
    { readonly is: 'new' } | { readonly is: 'amend' | 'withdraw'; readonly conclusion: Conclusion }
  >()
  const close = (): void => setOpen(undefined)
  const { conclusions } = state.findings
  return (
    <Section
      title="Conclusions"
      aside={
        <Button kind="text" onPress={() => setOpen({ is: 'new' })}>
          Write a conclusion
        </Button>
      }
    >
      {conclusions.length === 0 && (
        <p className="quiet">
          None yet. A conclusion is yours: it names its evidence, how strong it is, and what would change it.
        </p>
      )}
      {conclusions.map((conclusion) => (
        <ConclusionBlock
          key={conclusion.id}
          conclusion={conclusion}
          rows={props.rows}
          onFocus={props.onFocus}
          onAct={(is) => setOpen({ is, conclusion })}
        />
      ))}
      {(open?.is === 'new' || open?.is === 'amend') && (
        <ConclusionDialog
          rows={props.rows}
          facts={props.facts}
          focus={props.focus}
          amends={open.is === 'amend' ? open.conclusion : undefined}
          onClose={close}
        />
      )}
      {open?.is === 'withdraw' && <WithdrawDialog id={open.conclusion.id} words="this conclusion" onClose={close} />}
    </Section>
  )
}

interface BlockProps {
  readonly conclusion: Conclusion
  readonly rows: readonly SampleRow[]
  readonly onFocus: (focus: Focus) => void
  readonly onAct: (is: 'amend' | 'withdraw') => void
}

function ConclusionBlock({ conclusion, rows, onFocus, onAct }: BlockProps): ReactNode {
  const { statement, strength, evidence, wouldChangeIt } = conclusion.body
  const refs = new Set(evidence.map(({ ref }) => ref))
  const labels = rows
    .filter((row) => refs.has(row.label) || row.results.some(({ entry }) => refs.has(entry.id)))
    .map(({ label }) => label)
  return (
    <article className="conclusion">
      <p className="conclusion-statement">{statement}</p>
      <p className="quiet">
        {strength}, {conclusion.author}, {localDate(conclusion)}
        {conclusion.amendments > 0 && `, amended ${conclusion.amendments}×`}
      </p>
      <ReasonList
        reasons={evidence.map(({ ref, words, speaks }) => ({
          id: ref + words,
          mark: speaks === 'for' ? '+' : '−',
          children: words,
        }))}
      />
      {wouldChangeIt !== undefined && (
        <p>
          <b>What would change it:</b> {wouldChangeIt}
        </p>
      )}
      <ButtonRow>
        {labels.length > 0 && (
          <Button kind="text" onPress={() => onFocus({ kind: 'samples', words: 'Evidence of the conclusion', labels })}>
            Light up its samples
          </Button>
        )}
        <Button kind="text" onPress={() => onAct('amend')}>
          Amend
        </Button>
        <Button kind="text" onPress={() => onAct('withdraw')}>
          Withdraw
        </Button>
      </ButtonRow>
    </article>
  )
}
