import { showTemperature } from '@rillmark/casebook/units/display.ts'
import type { ReactNode } from 'react'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Tag } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { secondsInWords } from './clock.ts'
import { chosenInterval, INTERVALS, nudged } from './curve.ts'
import type { StepProps } from './step-props.ts'
import type { Curve } from './use-curve.ts'

/** The clock, the beat that asks for the next reading, the last one, and how long it has been steady. */
export function CurveNow({ curve }: { readonly curve: Curve }): ReactNode {
  const { units } = usePreferences()
  const { seconds = 0, beat, points, steady } = curve
  const last = points.at(-1)
  const dueInSeconds = beat?.dueInSeconds ?? 0
  const shown = last === undefined ? undefined : showTemperature(last.temperatureC, units)
  return (
    <div className="field-now">
      {shown !== undefined && (
        <span className="figure">
          {shown.text} <small>{shown.unit}</small>
        </span>
      )}
      <span className="field-now-words">
        {steady !== undefined && (
          <Tag shape="full" kind="accent">
            steady for {secondsInWords(steady.toSeconds - steady.fromSeconds)}
          </Tag>
        )}
        <span className="quiet" role="timer">
          {secondsInWords(seconds)} ·{' '}
          {dueInSeconds > 0 ? `next in ${dueInSeconds} s` : <b className="field-due">read it now</b>}
        </span>
      </span>
    </div>
  )
}

const NUDGES = { '°C': [-0.1, 0.1, 0.5, 2], '°F': [-0.2, 0.2, 1, 4] } as const

/** The next reading with one tap, where it has moved a little. */
export function Nudges(props: {
  readonly last: number
  readonly show: (celsius: number) => string
  readonly onAdd: (celsius: number) => void
}): ReactNode {
  const { units } = usePreferences()
  return (
    <div className="field-nudges" role="group" aria-label="Next reading">
      {NUDGES[units.temperature].map((step) => {
        const next = nudged(props.last, { step, units })
        return (
          <button
            key={step}
            type="button"
            className="button button-quiet"
            onClick={() => props.onAdd(next)}
            aria-label={`Add ${props.show(next)}`}
          >
            {step > 0 ? `+${step}` : `−${-step}`}
          </button>
        )
      })}
    </div>
  )
}

/** How often the reading is asked for; remembered for the day. */
export function IntervalChoice({ day }: Pick<StepProps, 'day'>): ReactNode {
  return (
    <RadioRow
      label="Ask for a reading"
      value={String(chosenInterval(day))}
      onChange={(seconds) => day.set({ 'curve interval': seconds })}
      choices={INTERVALS.map((seconds) => ({ id: String(seconds), label: `every ${seconds} s` }))}
    />
  )
}
