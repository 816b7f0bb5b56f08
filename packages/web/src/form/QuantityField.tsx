import {
  isRecordUnit,
  type RecordUnit,
  otherUnitOf,
  preferredUnit,
  inOtherUnitAsGiven,
  isOtherUnit,
} from '@rillmark/casebook/units/scales.ts'
import { type ReactNode, useState } from 'react'
import { NumberField, type NumberFieldProps } from '../kit/NumberField.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { type AnyUnit, draftOfTyped, textIn, typedIn } from './typed-quantity.ts'

interface QuantityFieldProps extends NumberFieldProps {
  /** of a temperature: a step or a drop, converted without the offset of the scales */
  readonly difference?: boolean | undefined
}

/** A step of a thermometer is told in degrees. */
const DEGREES: Partial<Record<AnyUnit, string>> = { K: '°C', '°F difference': '°F' }

/**
 * A number with a unit, typed in the unit the person prefers, the other one tap away. What was typed stays as typed and is kept with its
 * unit; read it with `readTypedQuantity`, which gives the unit of the record. Units without another beside them make a plain field.
 */
export function QuantityField({ difference, ...props }: QuantityFieldProps): ReactNode {
  const unit = difference === true && props.unit === '°C' ? 'K' : (props.unit ?? '')
  return isRecordUnit(unit) && props.whole !== true ? (
    <InEitherUnit {...props} unit={unit} words={difference === true ? DEGREES : {}} />
  ) : (
    <NumberField {...props} />
  )
}

interface EitherProps extends NumberFieldProps {
  readonly unit: RecordUnit
  /** what a unit is called here, where not by itself */
  readonly words: Partial<Record<AnyUnit, string>>
}

function InEitherUnit({ words, ...props }: EitherProps): ReactNode {
  const { unit, value, onChange, min, max } = props
  const called = (each: AnyUnit): string => words[each] ?? each
  const { units } = usePreferences()
  const [chosen, setChosen] = useState<AnyUnit>()
  const preferred = preferredUnit(unit, units)
  const pair: readonly AnyUnit[] = [unit, otherUnitOf(unit)]
  const typed = pair.find((each) => each === typedIn(value).unit)
  const shown = chosen ?? typed ?? preferred
  const other = pair.find((each) => each !== shown) ?? unit
  const limit = (given: number | undefined): number | undefined =>
    given === undefined || !isOtherUnit(shown) ? given : Number(inOtherUnitAsGiven(given, shown).replace('−', '-'))
  return (
    <NumberField
      {...props}
      unit={called(shown)}
      issue={props.issue === undefined || shown === unit ? props.issue : `${props.issue} (Figures in ${called(unit)}.)`}
      value={textIn(value, { unit, shown })}
      onChange={(text) => onChange(draftOfTyped(text, { shown, silent: shown === unit && preferred === unit }))}
      min={limit(min)}
      max={limit(max)}
      otherUnit={{ unit: called(other), onChoose: () => setChosen(other) }}
    />
  )
}
