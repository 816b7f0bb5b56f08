import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import { given } from '@rillmark/casebook/entry/given.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { prescribedDose } from '@rillmark/casebook/fieldwork/neutralizer-check.ts'
import type { GuidedStep, VisitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { spareLabel } from '@rillmark/casebook/plan/spare-label.ts'
import { type ReactNode, Suspense, useState } from 'react'
import { Note } from '../kit/Note.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { Select } from '../kit/Select.tsx'
import { Tag } from '../kit/Tag.tsx'
import { TextField } from '../kit/TextField.tsx'
import { readTypedNumber, type TypedNumber } from '../kit/typed-number.ts'
import type { ScanAnswer } from '../scan/ScanDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { DraftHandle } from './drafts.ts'
import { shortVolumeWords } from './short-volume.ts'
import { judgeLabel, type LabelJudged } from './judge-label.ts'
import { doseField, useBeforeOf } from './NeutralizeStep.tsx'
import { StepFrame } from './StepFrame.tsx'
import type { StepProps } from './step-props.ts'
import { useStop, useWriting } from './stop-tools.tsx'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'

const ScanDialog = lazyPart(async () => ({ default: (await import('../scan/ScanDialog.tsx')).ScanDialog }), sayMissing)

type Collected = BodyOf<'sample.collected'>
const LABEL_FORMATS = ['data_matrix'] as const
const FILTERS = [
  { id: 'none', label: 'no filter on the outlet' },
  { id: 'before filter', label: 'filter taken off first' },
  { id: 'after filter', label: 'through the filter' },
] as const

/** The label of the bottle in hand, typed and compared with the one planned; with it the sample counts as collected. */
export function LabelStep({ step, draft, day }: StepProps): ReactNode {
  const { at, plan } = useStop()
  const { state } = useInvestigation()
  const writing = useWriting()
  const [scanning, setScanning] = useState(false)
  const field = (name: string): string => `${step.key} ${name}`
  const typed = draft.get(field('label'))
  const judged = judgeLabel({ typed, expected: step.sample?.label, plan, state })
  const plannedMl = step.sample?.volumeMl
  const volume = readTypedNumber(draft.get(field('volume')) || String(plannedMl ?? ''))
  const short = volume.kind === 'number' ? shortVolumeWords(volume.value, plannedMl) : undefined
  const filter = FILTERS.find(({ id }) => id === draft.get(field('filter')))?.id ?? 'none'
  const keep = async (): Promise<void> => {
    if (judged.kind !== 'right' || step.sample === undefined || isNoVolume(volume)) return
    const body: Collected = {
      ...at,
      label: judged.label,
      sampleKind: step.sample.sampleKind,
      filter,
      ...given({ circuit: step.circuit, component: plan.stop.component }),
      ...(volume.kind === 'number' ? { volumeMl: volume.value } : {}),
      ...ranBefore({ plan, step }),
      ...neutralized({ plan, step, draft, day }),
    }
    const kept = await writing.writeAll([{ kind: 'sample.collected', body }, ...deviationOf(body, short)])
    if (kept) draft.set({ [field('label')]: '', [field('volume')]: '', [field('filter')]: '' })
  }
  return (
    <StepFrame
      step={step}
      writing={writing}
      act={{
        label: judged.kind === 'right' ? `Keep ${judged.label}` : 'Scan the label',
        onPress: () => (judged.kind === 'right' ? void keep() : setScanning(true)),
        disabled: step.refused !== undefined || (judged.kind === 'right' && isNoVolume(volume)),
      }}
    >
      <Expected step={step} />
      <TypedLabel
        typed={typed}
        judged={judged}
        onChange={(text) => draft.set({ [field('label')]: text })}
        onEnter={() => void keep()}
      />
      {scanning && (
        <Scan
          judge={(text) => judgeLabel({ typed: text, expected: step.sample?.label, plan, state })}
          onLabel={(label) => draft.set({ [field('label')]: label })}
          onClose={() => setScanning(false)}
        />
      )}
      {judged.kind === 'right' && <Fits note={judged.note} />}
      <VolumeField
        typed={draft.get(field('volume')) || String(plannedMl ?? '')}
        bad={isNoVolume(volume)}
        short={short}
        onChange={(text) => draft.set({ [field('volume')]: text })}
      />
      <Select
        label="Filter"
        value={filter}
        onChange={(next) => draft.set({ [field('filter')]: next })}
        choices={FILTERS}
      />
    </StepFrame>
  )
}

function TypedLabel(props: {
  readonly typed: string
  readonly judged: LabelJudged
  readonly onChange: (text: string) => void
  readonly onEnter: () => void
}): ReactNode {
  return (
    <div className="field-big-input">
      <TextField
        label="What the label in your hand says"
        mono
        value={props.typed}
        onChange={props.onChange}
        onEnter={props.onEnter}
        issue={props.judged.kind === 'wrong' ? props.judged.why : undefined}
      />
    </div>
  )
}

function VolumeField(props: {
  readonly typed: string
  readonly bad: boolean
  readonly short: string | undefined
  readonly onChange: (text: string) => void
}): ReactNode {
  return (
    <>
      <NumberField
        label="Volume"
        unit="mL"
        issue={props.bad ? 'A volume in mL, more than 0, or nothing.' : undefined}
        value={props.typed}
        onChange={props.onChange}
      />
      {props.short !== undefined && <Note kind="warn">{props.short}. Kept, it is recorded as a deviation.</Note>}
    </>
  )
}

/** A bottle that holds too little is a deviation beside its sample. */
function deviationOf({ round, stop, label }: Collected, short: string | undefined): Proposal[] {
  if (short === undefined) return []
  return [{ kind: 'deviation.recorded', body: { round, stop, label, reason: 'volume short', text: short } }]
}

/** Something was typed that can't be the volume of a sample. */
function isNoVolume(volume: TypedNumber): boolean {
  return volume.kind === 'unreadable' || (volume.kind === 'number' && volume.value <= 0)
}

function Fits({ note }: { readonly note: string | undefined }): ReactNode {
  return (
    <Tag shape="check" kind="accent">
      {note ?? 'Check digits fit, and it belongs here'}
    </Tag>
  )
}

/** The label by the camera: one that does not belong here is said to be so at once, and the camera looks on. */
function Scan(props: {
  readonly judge: (text: string) => LabelJudged
  readonly onLabel: (label: string) => void
  readonly onClose: () => void
}): ReactNode {
  const found = (text: string): ScanAnswer => {
    const judged = props.judge(text)
    if (judged.kind === 'right') {
      props.onLabel(judged.label)
      props.onClose()
      return undefined
    }
    return { kind: 'wrong', words: judged.kind === 'wrong' ? judged.why : `“${text.slice(0, 40)}” is no sample label.` }
  }
  return (
    <Suspense>
      <ScanDialog title="Scan the label" formats={LABEL_FORMATS} onFound={found} onClose={props.onClose} />
    </Suspense>
  )
}

function Expected({ step }: { readonly step: GuidedStep }): ReactNode {
  const { state, device } = useInvestigation()
  const { sample } = step
  if (sample === undefined) return null
  if (sample.label === undefined)
    return (
      <p className="quiet">
        No label is planned for this {SAMPLE_KIND_WORDS[sample.sampleKind]}. Take a spare one, or write{' '}
        <b className="mono">{spareLabel(state, { device })}</b> on the container.
      </p>
    )
  return (
    <p className="field-expected">
      <span className="quiet">The record expects, for {SAMPLE_KIND_WORDS[sample.sampleKind]}</span>
      <b className="mono">{sample.label}</b>
    </p>
  )
}

/** How long the water ran before the sample, from the running step of the same sample. */
function ranBefore({ plan, step }: { plan: VisitPlan; step: GuidedStep }): Pick<Collected, 'flushedSeconds'> {
  const name = step.sample?.label ?? step.sample?.sampleKind
  const run = plan.steps.find((one) => one.step.kind === 'run' && one.sample === step.sample)
  const done = plan.visit?.steps.findLast(
    ({ body }) => body.procedure === run?.procedure && body.step === run.name && (body.label ?? name) === name,
  )
  return done?.body.seconds === undefined ? {} : { flushedSeconds: Math.min(done.body.seconds, 36_000) }
}

/** The neutralizer put into this bottle at its own step, if that step was done. */
function neutralized(of: {
  plan: VisitPlan
  step: GuidedStep
  draft: DraftHandle
  day: DraftHandle
}): Pick<Collected, 'neutralizer'> {
  const { plan, step, draft, day } = of
  const put = plan.steps.find((one) => one.step.kind === 'neutralize' && one.sample === step.sample)
  if (put?.state !== 'done' || put.step.dose?.unit.startsWith('mL') !== true) return {}
  const prescribed = prescribedDose(put.follows, step.sample?.volumeMl ?? 1000)
  if (prescribed === undefined) return {}
  const typed = readTypedNumber(draft.get(doseField(put.key)))
  const [lot, expiresOn] = [day.get('neutralizer lot').trim(), useBeforeOf(day)]
  return {
    neutralizer: {
      solutionNormality: prescribed.solutionNormality,
      solutionVolumeMl: typed.kind === 'number' ? typed.value : prescribed.solutionVolumeMl,
      ...(lot === '' ? {} : { lot }),
      ...(expiresOn === undefined ? {} : { expiresOn }),
    },
  }
}
