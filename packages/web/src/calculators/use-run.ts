import { isLongRun } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { useEffect, useMemo, useState } from 'react'
import type { GroupDraft } from '../form/draft.ts'
import type { NamedField } from '../form/field-spec.ts'
import { type FinishedRun, givenBy, type Run, runOf } from './calculation-run.ts'
import type { CalculationMessage } from './calculation.worker.ts'

export interface FilledForm {
  readonly fields: readonly NamedField[]
  readonly draft: GroupDraft
}

/** What the form comes to: short runs at once, long ones in a worker that another figure or the user stops. */
export function useRun(calculation: Calculation, { fields, draft }: FilledForm): Run {
  const given = useMemo(() => givenBy(fields, draft), [fields, draft])
  const long = isLongRun({ id: calculation.id, input: given })
  const short = useMemo(() => (long ? undefined : runOf(calculation, { given })), [long, calculation, given])
  const apart = useRunApart({ id: calculation.id, given, wanted: long })
  return short ?? apart
}

type State = 'under way' | 'stopped' | 'failed' | FinishedRun

interface Apart {
  readonly id: string
  readonly given: unknown
  readonly wanted: boolean
}

function useRunApart({ id, given, wanted }: Apart): Run {
  const [attempt, setAttempt] = useState(0)
  const asked = useMemo(() => ({ id, given, attempt }), [id, given, attempt])
  const [told, setTold] = useState<{ of: object; state: State; fraction?: number }>()
  // what was told of other figures is not told of these
  const now = told?.of === asked ? told : undefined
  const state = now?.state ?? 'under way'
  const stopped = state === 'stopped'
  useEffect(() => {
    if (!wanted || stopped) return
    const worker = new Worker(new URL('./calculation.worker.ts', import.meta.url), { type: 'module' })
    worker.addEventListener('message', ({ data }: MessageEvent<CalculationMessage>) => {
      if ('run' in data) worker.terminate()
      setTold({ of: asked, state: 'under way', ...stateOf(data) })
    })
    worker.addEventListener('error', () => setTold({ of: asked, state: 'failed' }))
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
    worker.postMessage({ id: asked.id, given: asked.given })
    return () => worker.terminate()
  }, [asked, wanted, stopped])
  if (typeof state === 'object') return state
  if (state !== 'under way')
    return { kind: 'stopped', failed: state === 'failed', again: () => setAttempt((before) => before + 1) }
  return { kind: 'running', fraction: now?.fraction, stop: () => setTold({ of: asked, state: 'stopped' }) }
}

function stateOf(message: CalculationMessage): { fraction: number } | { state: FinishedRun } {
  return 'run' in message ? { state: message.run } : { fraction: message.fraction }
}
