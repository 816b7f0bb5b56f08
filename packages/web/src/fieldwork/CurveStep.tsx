import { showTemperature } from '@rillmark/casebook/units/display.ts'
import { FIELDWORK } from '@rillmark/casebook/fieldwork/figures.ts'
import type { TemperatureCurve } from '@rillmark/casebook/fieldwork/kinds.ts'
import { steadyStretch, timeToThreshold } from '@rillmark/casebook/fieldwork/steady.ts'
import type { ReactNode } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { Tag } from '../kit/Tag.tsx'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { usePreferences } from '../store/preferences.tsx'
import { secondsInWords, useSecondsSince } from './clock.ts'
import { nudged, readPoints, verdictWords, withPoint, writePoints } from './curve.ts'
import { CurveChart } from './CurveChart.tsx'
import { InstrumentChoice, useInstrument } from './InstrumentChoice.tsx'
import { type Act, StepFrame } from './StepFrame.tsx'
import type { StepProps } from './step-props.ts'
import { useStop, useWriting } from './stop-tools.tsx'

/** A temperature as a curve: a reading every few seconds by the wall clock, a mark once it is steady, and what to keep. */
export function CurveStep({ step, draft, day }: StepProps): ReactNode {
  const { at, plan } = useStop()
  const { units } = usePreferences()
  const writing = useWriting()
  const quantity = step.quantity === 'cold-temperature' ? 'cold-temperature' : 'hot-temperature'
  const { chosen } = useInstrument(quantity, day)
  const field = (name: string): string => `${step.key} ${name}`
  const seconds = useSecondsSince(draft.get(field('startedAt')))
  const points = readPoints(draft.get(field('points')))
  const last = points.at(-1)
  const steady = steadyStretch(points)
  const typed = readTypedQuantity(draft.get(field('typed')))
  const typedC = typed.kind === 'number' ? typed.value : undefined
  const show = (celsius: number): string => showTemperature(celsius, units).words

  const add = (temperatureC: number): void => {
    if (seconds === undefined || points.length >= MOST_POINTS) return
    draft.set({ [field('points')]: writePoints(withPoint(points, { seconds, temperatureC })), [field('typed')]: '' })
  }
  const clear = (): void => draft.set({ [field('points')]: '', [field('startedAt')]: '', [field('typed')]: '' })
  const keep = async (temperatureC: number): Promise<void> => {
    const { component } = plan.stop
    const kept = await writing.write('reading.taken', {
      ...at,
      quantity,
      reading: { kind: 'value', value: temperatureC, unit: 'Cel' },
      ...(points.length === 0 ? {} : { curve: steady === undefined ? { points } : { points, steady } }),
      ...(step.circuit === undefined ? {} : { circuit: step.circuit }),
      ...(component === undefined ? {} : { component }),
      ...(chosen === undefined ? {} : { instrument: chosen.instrument.code }),
    })
    if (kept) clear()
  }
  const acts = actsOf({
    seconds,
    typedC,
    last: last?.temperatureC,
    steady: steady !== undefined,
    refused: step.refused !== undefined,
    show,
    add,
    keep: (value) => void keep(value),
    start: () => draft.set({ [field('startedAt')]: String(Date.now()) }),
  })
  const verdict = step.circuit === 'tempered' ? undefined : timeToThreshold(points, quantity)
  return (
    <StepFrame step={step} writing={writing} act={acts.act} other={acts.other} underWay={seconds !== undefined}>
      {seconds !== undefined && <Now seconds={seconds} last={last} steady={steady} />}
      <div className="field-big-input">
        <QuantityField
          label={seconds === undefined ? 'Without the clock: what it shows' : 'Probe shows'}
          labelHidden={seconds !== undefined}
          unit="°C"
          value={draft.get(field('typed'))}
          onChange={(text) => draft.set({ [field('typed')]: text })}
        />
      </div>
      {seconds !== undefined && last !== undefined && <Nudges last={last.temperatureC} show={show} onAdd={add} />}
      {points.length > 0 && (
        <CurveChart points={points} steady={steady} quantity={quantity} withThreshold={step.circuit !== 'tempered'} />
      )}
      {verdict !== undefined && <p className="quiet">{verdictWords({ verdict, quantity, show })}</p>}
      {seconds === undefined && <InstrumentChoice quantity={quantity} day={day} />}
    </StepFrame>
  )
}

const MOST_POINTS = 500

function actsOf(of: {
  seconds: number | undefined
  typedC: number | undefined
  last: number | undefined
  steady: boolean
  refused: boolean
  show: (celsius: number) => string
  add: (celsius: number) => void
  keep: (celsius: number) => void
  start: () => void
}): { act: Act; other?: Act } {
  const { seconds, typedC, last, show } = of
  if (seconds === undefined)
    return typedC === undefined
      ? { act: { label: 'Open the tap, start the clock', onPress: of.start, disabled: of.refused } }
      : { act: { label: `Keep ${show(typedC)}, no curve`, onPress: () => of.keep(typedC), disabled: of.refused } }
  if (typedC !== undefined) return { act: { label: `Add ${show(typedC)}`, onPress: () => of.add(typedC) } }
  if (last === undefined) return { act: { label: 'Type the first reading', onPress: () => undefined, disabled: true } }
  if (of.steady) return { act: { label: `Keep ${show(last)}`, onPress: () => of.keep(last) } }
  return {
    act: { label: `Still ${show(last)}`, onPress: () => of.add(last) },
    other: { label: 'Keep, not steady', onPress: () => of.keep(last) },
  }
}

/** The last reading, how long it has been steady, and when the next one is due. */
function Now(props: {
  readonly seconds: number
  readonly last: TemperatureCurve['points'][number] | undefined
  readonly steady: TemperatureCurve['steady'] | undefined
}): ReactNode {
  const { units } = usePreferences()
  const { seconds, last, steady } = props
  const due = (last?.seconds ?? -FIELDWORK.readingEverySeconds) + FIELDWORK.readingEverySeconds - seconds
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
          {secondsInWords(seconds)} · {due > 0 ? `next in ${due} s` : 'read it now'}
        </span>
      </span>
    </div>
  )
}

const NUDGES = { '°C': [-0.1, 0.1, 0.5, 2], '°F': [-0.2, 0.2, 1, 4] } as const

/** The next reading with one tap, where it has moved a little. */
function Nudges(props: {
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
