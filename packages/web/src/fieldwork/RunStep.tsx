import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import type { ReactNode } from 'react'
import { secondsInWords, useClockSet, useSecondsSince } from './clock.ts'
import type { DraftHandle } from './drafts.ts'
import { StepFrame } from './StepFrame.tsx'
import { stepNames, useStop, useWriting } from './stop-tools.tsx'
import { useSignalOnce } from './use-signal-once.ts'
import { useWakeLock } from './use-wake-lock.ts'

const MOST_SECONDS = 36_000

/** A step that runs water: the clock starts with a press, goes on through a reload or a locked screen, and tells when it is long enough. */
export function RunStep({ step, draft }: { readonly step: GuidedStep; readonly draft: DraftHandle }): ReactNode {
  const { at } = useStop()
  const writing = useWriting()
  const field = `${step.key} startedAt`
  const startedAt = draft.get(field)
  const seconds = useSecondsSince(startedAt)
  const target = typeof step.step.timer?.value === 'number' ? step.step.timer.value : undefined
  const over = seconds !== undefined && target !== undefined && seconds >= target
  useClockSet(startedAt, (moved) => {
    const told = `${step.key} told`
    draft.set({ [field]: moved(draft.get(field)), [told]: moved(draft.get(told)) })
  })
  useWakeLock(seconds !== undefined)
  useSignalOnce({ kind: 'over', occasion: over ? startedAt : undefined, field: `${step.key} told`, draft })
  const start = (): void => draft.set({ [field]: String(Date.now()) })
  const done = async (): Promise<void> => {
    const kept = await writing.write('step.done', {
      ...at,
      ...stepNames(step),
      seconds: Math.min(seconds ?? 0, MOST_SECONDS),
    })
    if (kept) draft.set({ [field]: '', [`${step.key} told`]: '' })
  }
  return (
    <StepFrame
      step={step}
      writing={writing}
      act={
        seconds === undefined
          ? { label: 'Start the clock', onPress: start }
          : { label: `Ran ${secondsInWords(seconds)}, go on`, onPress: () => void done() }
      }
      other={seconds === undefined ? undefined : { label: 'Start again', onPress: start }}
    >
      {seconds !== undefined && <RunClock seconds={seconds} target={target} />}
    </StepFrame>
  )
}

function RunClock({ seconds, target }: { readonly seconds: number; readonly target: number | undefined }): ReactNode {
  const over = target !== undefined && seconds >= target
  return (
    <div className="stack">
      <p className="field-clock" role="timer">
        <span className="figure">{secondsInWords(seconds)}</span>
        {target !== undefined && (
          <span className={over ? 'field-over' : 'quiet'}>
            {over ? '✓ long enough' : `${secondsInWords(target - seconds)} to go`}
          </span>
        )}
      </p>
      {target !== undefined && (
        <div
          className="meter-track"
          role="progressbar"
          aria-label="Run time"
          aria-valuemin={0}
          aria-valuemax={target}
          aria-valuenow={Math.min(seconds, target)}
        >
          <span style={{ width: `${(Math.min(seconds, target) / target) * 100}%` }} />
        </div>
      )}
    </div>
  )
}
