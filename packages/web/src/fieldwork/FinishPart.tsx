import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import { readingWords } from '@rillmark/casebook/findings/reading-layer.ts'
import { collectedLabel, standingOf } from '@rillmark/casebook/fieldwork/stops.ts'
import type { ReactNode } from 'react'
import type { MarkShape } from '../kit/Mark.tsx'
import { Note } from '../kit/Note.tsx'
import { Tag } from '../kit/Tag.tsx'
import { TextField } from '../kit/TextField.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { DraftHandle } from './drafts.ts'
import { PhotoPart, usePhotoDraft } from './PhotoPart.tsx'
import { StepFoot } from './StepFrame.tsx'
import { StepTitle } from './StepTitle.tsx'
import { NotKept, useStop, useWriting } from './stop-tools.tsx'

const STANDING: Readonly<Record<ReturnType<typeof standingOf>, MarkShape>> = {
  collected: 'check',
  'left out': 'cross',
  open: 'open',
}

/** The end of a stop: what is there, what is not, and one word for it. */
export function FinishPart({
  draft,
  onBack,
}: {
  readonly draft: DraftHandle
  readonly onBack?: (() => void) | undefined
}): ReactNode {
  const { at, plan } = useStop()
  const writing = useWriting()
  const { outcome } = plan
  const { waiting } = usePhotoDraft(at)
  const reason = draft.get('reason').trim()
  const finish = async (): Promise<void> => {
    const kept = await writing.write('stop.finished', { ...at, outcome, ...(reason === '' ? {} : { reason }) })
    if (kept) draft.clear()
  }
  return (
    <>
      <div className="field-step" data-still="head">
        <div>
          <p className="quiet">
            {plan.current === undefined ? 'All steps are settled' : 'Leaving before the last step'}
          </p>
          <StepTitle>
            {outcome === 'sampled'
              ? 'Everything planned is here'
              : outcome === 'partly'
                ? 'Part of it is here'
                : 'Nothing could be taken'}
          </StepTitle>
        </div>
        <AtStop />
        {outcome !== 'sampled' && (
          <TextField
            label="Why not all of it"
            required
            width="full"
            value={draft.get('reason')}
            onChange={(text) => draft.set({ reason: text })}
          />
        )}
        {waiting && (
          <div className="stack">
            <Note kind="warn">A photo of this stop waits for its words.</Note>
            <PhotoPart />
          </div>
        )}
        <NotKept issues={writing.issues} />
      </div>
      <StepFoot
        busy={writing.busy}
        act={{
          label: outcome === 'sampled' ? 'Finish: sampled' : `Finish: ${outcome}`,
          onPress: () => void finish(),
          disabled: outcome !== 'sampled' && reason === '',
        }}
        other={onBack === undefined ? undefined : { label: 'Back to the step', onPress: onBack }}
      />
    </>
  )
}

/** Samples, readings and departures of the stop, as they stand in the record. */
export function AtStop(): ReactNode {
  const { plan } = useStop()
  const { units } = usePreferences()
  const { visit, stop } = plan
  return (
    <ul className="field-lines">
      {stop.samples
        .filter(({ sampleKind }) => sampleKind !== 'readings-only')
        .map((sample) => {
          const standing = standingOf(visit, sample)
          return (
            <li key={sample.label ?? sample.sampleKind}>
              <span>
                {SAMPLE_KIND_WORDS[sample.sampleKind]}{' '}
                <span className="mono">{sample.label ?? collectedLabel(visit, sample)}</span>
              </span>
              <Tag shape={STANDING[standing]} kind={standing === 'collected' ? 'accent' : 'warn'}>
                {standing === 'open' ? 'not taken' : standing}
              </Tag>
            </li>
          )
        })}
      {visit?.readings.map((reading) => (
        <li key={reading.id}>
          <span>{readingWords(reading, units)}</span>
          <span className="faint">{reading.body.instrument}</span>
        </li>
      ))}
      {visit?.deviations.map(({ id, body }) => (
        <li key={id}>
          <span>
            {body.reason}
            {body.text !== undefined && <span className="faint"> {body.text}</span>}
          </span>
          <Tag shape="triangle" kind="warn">
            deviation
          </Tag>
        </li>
      ))}
    </ul>
  )
}
