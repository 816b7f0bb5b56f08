import { given } from '@rillmark/casebook/entry/given.ts'
import { timeToThreshold } from '@rillmark/casebook/fieldwork/steady.ts'
import { showTemperature } from '@rillmark/casebook/units/display.ts'
import type { ReactNode } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { Button } from '../kit/Button.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { outsideWords, verdictWords } from './curve.ts'
import { CurveChart } from './CurveChart.tsx'
import { CurveNow, IntervalChoice, Nudges } from './CurveParts.tsx'
import { InstrumentChoice, useInstrument } from './InstrumentChoice.tsx'
import { type Act, StepFrame } from './StepFrame.tsx'
import type { StepProps } from './step-props.ts'
import { useStop, useWriting } from './stop-tools.tsx'
import { type Curve, useCurve } from './use-curve.ts'

/** A temperature as a curve: a beat asks for the next reading, a mark shows once it is steady, and then there is something to keep. */
export function CurveStep(props: StepProps): ReactNode {
  const { step, day } = props
  const { at, plan } = useStop()
  const { units } = usePreferences()
  const writing = useWriting()
  const quantity = step.quantity === 'cold-temperature' ? 'cold-temperature' : 'hot-temperature'
  const { chosen, choices } = useInstrument(quantity, day)
  const curve = useCurve(props)
  const { seconds, points, steady } = curve
  const last = points.at(-1)
  const show = (celsius: number): string => showTemperature(celsius, units).words
  const keep = async (temperatureC: number): Promise<void> => {
    const { component } = plan.stop
    const kept = await writing.write('reading.taken', {
      ...at,
      quantity,
      reading: { kind: 'value', value: temperatureC, unit: 'Cel' },
      ...(points.length === 0 ? {} : { curve: steady === undefined ? { points } : { points, steady } }),
      ...given({ circuit: step.circuit, component, instrument: chosen?.instrument.code, takenAt: curve.lastAt }),
    })
    if (kept) curve.clear()
  }
  const refused = step.refused !== undefined || (chosen === undefined && choices.length > 0)
  const outside =
    curve.typedC === undefined ? undefined : outsideWords(curve.typedC, { probe: chosen?.instrument, show })
  const acts = actsOf({ curve, refused, outside, show, keep: (value) => void keep(value) })
  const verdict = step.circuit === 'tempered' ? undefined : timeToThreshold(points, quantity)
  return (
    <StepFrame step={step} writing={writing} act={acts.act} other={acts.other} underWay={seconds !== undefined}>
      {seconds !== undefined && <CurveNow curve={curve} />}
      <div className={seconds === undefined ? 'field-big-input' : 'field-huge-input'}>
        <QuantityField
          label={seconds === undefined ? 'Without the clock: what it shows' : 'Probe shows'}
          labelHidden={seconds !== undefined}
          unit="°C"
          value={curve.typed}
          onChange={curve.type}
          issue={outside}
        />
      </div>
      {seconds !== undefined && last !== undefined && <Nudges last={last.temperatureC} show={show} onAdd={curve.add} />}
      {last !== undefined && (
        <Button kind="text" onPress={curve.takeBack}>
          Take {show(last.temperatureC)} back
        </Button>
      )}
      {points.length > 0 && (
        <CurveChart points={points} steady={steady} quantity={quantity} withThreshold={step.circuit !== 'tempered'} />
      )}
      {verdict !== undefined && <p className="quiet">{verdictWords({ verdict, quantity, show })}</p>}
      {seconds === undefined && <InstrumentChoice quantity={quantity} day={day} />}
      {seconds === undefined && <IntervalChoice day={day} />}
    </StepFrame>
  )
}

function actsOf(of: {
  curve: Curve
  refused: boolean
  /** why what is typed can't be a reading */
  outside: string | undefined
  show: (celsius: number) => string
  keep: (celsius: number) => void
}): { act: Act; other?: Act } {
  const { show, keep, refused } = of
  const { seconds, typedC, points, steady, add, start, clear } = of.curve
  const disabled = of.outside !== undefined
  const last = points.at(-1)?.temperatureC
  if (seconds === undefined)
    return typedC === undefined
      ? { act: { label: 'Open the tap, start the clock', onPress: start, disabled: refused } }
      : { act: { label: `Keep ${show(typedC)}, no curve`, onPress: () => keep(typedC), disabled: refused || disabled } }
  if (typedC !== undefined) return { act: { label: `Add ${show(typedC)}`, onPress: () => add(typedC), disabled } }
  if (last === undefined)
    return {
      act: { label: 'Type the first reading', onPress: () => undefined, disabled: true },
      other: { label: 'Stop the clock', onPress: clear },
    }
  if (steady !== undefined) return { act: { label: `Keep ${show(last)}`, onPress: () => keep(last) } }
  return {
    act: { label: `Still ${show(last)}`, onPress: () => add(last) },
    other: { label: 'Keep, not steady', onPress: () => keep(last) },
  }
}
