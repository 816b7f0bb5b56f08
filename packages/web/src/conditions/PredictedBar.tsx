import { clockOf } from '@rillmark/casebook/conditions/clock-of.ts'
import {
  QUANTITY_TITLES,
  SHOWN_QUANTITIES,
  type ShownQuantity,
  unitOf,
  type WholeDay,
} from '@rillmark/casebook/conditions/shown-quantity.ts'
import { type ReactNode, useEffect, useId, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { type Choice, Select } from '../kit/Select.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { Looking } from './PredictedFace.tsx'

const SIDE_CHOICES = [
  { id: 'hot', label: 'Hot side' },
  { id: 'cold', label: 'Cold side' },
] as const

export interface PredictedBarProps {
  readonly looking: Looking
  readonly onLook: (next: (now: Looking) => Looking) => void
  /** Spans of the day; undefined where no curves were kept. */
  readonly slots: number | undefined
  /** Something was tried, and can be looked at in place of what is. */
  readonly tried: boolean
}

const WATERS = [
  { id: 'as it is', label: 'As it is' },
  { id: 'changed', label: 'With the changes' },
] as const

/** What lies on the drawing: which figure, of which side, of the whole day or at a time. */
export function PredictedBar({ looking, onLook, slots, tried }: PredictedBarProps): ReactNode {
  const { units } = usePreferences()
  const choices = SHOWN_QUANTITIES.map((id) => {
    const unit = unitOf(id, units)
    return { id, label: unit === '' ? QUANTITY_TITLES[id] : `${QUANTITY_TITLES[id]}, ${unit}` }
  })
  const { quantity, slot, by } = looking
  return (
    <div className="predicted-bar">
      <Select
        label="On the drawing"
        value={quantity}
        choices={choices}
        onChange={(next) => onLook((now) => ({ ...now, quantity: next }))}
      />
      <RadioRow
        label="Water of the"
        value={looking.side}
        choices={SIDE_CHOICES}
        onChange={(side) => onLook((now) => ({ ...now, side }))}
      />
      <Select
        label="Of the day"
        value={slot !== undefined ? AT_A_TIME : hasSpread(quantity) ? by : 'mean'}
        choices={whenChoices(quantity, slots !== undefined)}
        onChange={(when) =>
          onLook((now) =>
            when === AT_A_TIME ? { ...now, slot: now.slot ?? 0 } : { ...now, slot: undefined, by: when },
          )
        }
      />
      {tried && (
        <RadioRow
          label="The building"
          value={looking.changed ? 'changed' : 'as it is'}
          choices={WATERS}
          onChange={(water) => onLook((now) => ({ ...now, changed: water === 'changed' }))}
        />
      )}
      {slots !== undefined && <DaySlider looking={looking} onLook={onLook} slots={slots} />}
    </div>
  )
}

const AT_A_TIME = 'at a time'

/** Growth and standing have one figure a day. */
const hasSpread = (quantity: ShownQuantity): boolean => quantity !== 'growth' && quantity !== 'standing'

function whenChoices(quantity: ShownQuantity, curves: boolean): readonly Choice<WholeDay | typeof AT_A_TIME>[] {
  const whole: readonly Choice<WholeDay>[] = hasSpread(quantity)
    ? [
        { id: 'highest', label: 'The highest' },
        { id: 'mean', label: 'The mean' },
        { id: 'lowest', label: 'The lowest' },
      ]
    : [{ id: 'mean', label: quantity === 'standing' ? 'The longest stretch' : 'The whole day' }]
  return curves ? [...whole, { id: AT_A_TIME, label: 'At a time' }] : whole
}

/** Slow enough to follow, quick enough to see a day in half a minute. */
const STEP_MS = 350

function DaySlider({
  looking,
  onLook,
  slots,
}: Omit<PredictedBarProps, 'tried' | 'slots'> & { readonly slots: number }): ReactNode {
  const id = useId()
  const [passing, setPassing] = useState(false)
  const { slot } = looking
  const words = slot === undefined ? 'whole day' : clockOf(slot, slots)
  const to = (next: number): void => {
    setPassing(false)
    onLook((now) => ({ ...now, slot: next }))
  }
  useEffect(() => {
    if (!passing) return
    const timer = setInterval(
      () => onLook((now) => ({ ...now, slot: now.slot === undefined ? 0 : (now.slot + 1) % slots })),
      STEP_MS,
    )
    return () => clearInterval(timer)
  }, [passing, onLook, slots])
  return (
    <div className="day-slider">
      <label htmlFor={id}>Time of day</label>
      <output htmlFor={id}>{words}</output>
      <input
        id={id}
        type="range"
        min={0}
        max={slots - 1}
        value={slot ?? 0}
        data-whole={slot === undefined || undefined}
        aria-valuetext={words}
        onChange={(event) => to(Number(event.target.value))}
      />
      <span className="day-slider-acts">
        <Button kind="text" name="A quarter of an hour earlier" onPress={() => to(((slot ?? 0) + slots - 1) % slots)}>
          Earlier
        </Button>
        <Button
          kind="text"
          name="A quarter of an hour later"
          onPress={() => to(slot === undefined ? 0 : (slot + 1) % slots)}
        >
          Later
        </Button>
        <Button kind="text" onPress={() => setPassing((now) => !now)}>
          {passing ? 'Hold the day' : 'Let the day pass'}
        </Button>
      </span>
    </div>
  )
}
