import { type Beat, nextBeat } from '@rillmark/casebook/fieldwork/beat.ts'
import type { TemperatureCurve } from '@rillmark/casebook/fieldwork/kinds.ts'
import { steadyStretch } from '@rillmark/casebook/fieldwork/steady.ts'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { useClockSet, useSecondsSince } from './clock.ts'
import { chosenInterval, readPoints, withPoint, writePoints } from './curve.ts'
import type { StepProps } from './step-props.ts'
import { useSignalOnce } from './use-signal-once.ts'
import { useWakeLock } from './use-wake-lock.ts'

const MOST_POINTS = 500
const FIELDS = ['points', 'startedAt', 'typed', 'typed at', 'told', 'told steady'] as const
type FieldName = (typeof FIELDS)[number]

export interface Curve {
  /** since the tap was opened; undefined before */
  readonly seconds: number | undefined
  readonly beat: Beat | undefined
  readonly points: TemperatureCurve['points']
  readonly steady: TemperatureCurve['steady'] | undefined
  /** UTC instant of the last reading */
  readonly lastAt: string | undefined
  readonly typed: string
  readonly typedC: number | undefined
  readonly start: () => void
  readonly type: (text: string) => void
  readonly add: (temperatureC: number) => void
  /** takes the last reading off again */
  readonly takeBack: () => void
  readonly clear: () => void
}

/** The curve under way at a step, kept in the draft: its clock, its beat and signals, the screen kept on, what is typed. */
export function useCurve({ step, draft, day }: StepProps): Curve {
  const field = (name: FieldName): string => `${step.key} ${name}`
  const startedAt = draft.get(field('startedAt'))
  const seconds = useSecondsSince(startedAt)
  const points = readPoints(draft.get(field('points')))
  const steady = steadyStretch(points)
  const typed = readTypedQuantity(draft.get(field('typed')))
  const typedC = typed.kind === 'number' ? typed.value : undefined
  const beat = seconds === undefined ? undefined : nextBeat({ points, seconds, everySeconds: chosenInterval(day) })
  useClockSet(startedAt, (moved) => {
    const kept = ['startedAt', 'typed at'] as const
    draft.set(Object.fromEntries(kept.map((name) => [field(name), moved(draft.get(field(name)))])))
  })
  useWakeLock(seconds !== undefined)
  const due = steady === undefined ? dueOccasion(startedAt, beat) : undefined
  useSignalOnce({ kind: 'due', occasion: due, field: field('told'), draft })
  const over = steady === undefined ? undefined : startedAt
  useSignalOnce({ kind: 'over', occasion: over, field: field('told steady'), draft })
  const last = points.at(-1)
  return {
    seconds,
    beat,
    points,
    steady,
    lastAt: last === undefined ? undefined : new Date(Number(startedAt) + last.seconds * 1000).toISOString(),
    typed: draft.get(field('typed')),
    typedC,
    start: () => draft.set({ [field('startedAt')]: String(Date.now()) }),
    type: (text) => draft.set({ [field('typed')]: text, [field('typed at')]: String(Date.now()) }),
    add: (temperatureC) => {
      if (seconds === undefined || points.length >= MOST_POINTS) return
      const typedAt = typedC === temperatureC ? Number(draft.get(field('typed at'))) : 0
      const read = typedAt > 0 ? Math.floor((typedAt - Number(startedAt)) / 1000) : seconds
      const next = withPoint(points, { seconds: Math.min(Math.max(0, read), seconds), temperatureC })
      draft.set({ [field('points')]: writePoints(next), [field('typed')]: '', [field('typed at')]: '' })
    },
    takeBack: () => draft.set({ [field('points')]: writePoints(points.slice(0, -1)) }),
    clear: () => draft.set(Object.fromEntries(FIELDS.map((name) => [field(name), '']))),
  }
}

/** A reading is called for when its beat has come; the first one needs no call. */
function dueOccasion(startedAt: string, beat: Beat | undefined): string | undefined {
  if (beat === undefined || beat.number === 0 || beat.dueInSeconds > 0) return undefined
  return `${startedAt}/${beat.number}`
}
