import display from '@rillmark/reference/conditions/display.json' with { type: 'json' }
import type { Quantity } from '@rillmark/science/network/network.ts'
import type { Tone } from '../drawing/layers.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import type { Shown } from '../units/display.ts'
import { inOtherUnit, plainText } from '../units/scales.ts'
import type { PlaceConditions } from './conditions.ts'

/** What of the predicted water is drawn, charted and ranked. */
export const SHOWN_QUANTITIES = ['temperature', 'age', 'residual', 'growth', 'standing'] as const
export type ShownQuantity = (typeof SHOWN_QUANTITIES)[number]

/** The water of which circuits is looked at: hot takes in what is returned and what is mixed. */
export const SIDES = ['hot', 'cold'] as const
export type Side = (typeof SIDES)[number]

export const QUANTITY_TITLES: Readonly<Record<ShownQuantity, string>> = {
  temperature: 'Temperature',
  age: 'Age',
  residual: 'Residual',
  growth: 'Growth index',
  standing: 'Standing',
}

/** The name of a quantity among what the simulation carries. */
export const CARRIED: Readonly<Record<ShownQuantity, Quantity>> = {
  temperature: 'temperatureC',
  age: 'ageHours',
  residual: 'residualMgPerL',
  growth: 'growth',
  standing: 'standingHours',
}

/** Which figure stands for the whole day. */
export type WholeDay = 'mean' | 'lowest' | 'highest'

/** The figure that stands for the whole day; growth and standing have but one: the index, and the longest stretch without flow. */
export function wholeDay(
  place: PlaceConditions,
  { quantity, by = 'mean' }: { quantity: ShownQuantity; by?: WholeDay | undefined },
): number {
  switch (quantity) {
    case 'temperature':
      return place.temperatureC[SPREAD[by]]
    case 'age':
      return place.ageHours[SPREAD[by]]
    case 'residual':
      return place.residualMgPerL[SPREAD[by]]
    case 'growth':
      return place.growthIndex
    case 'standing':
      return place.longestStagnationHours
  }
}

const SPREAD = { mean: 'mean', lowest: 'min', highest: 'max' } as const

const UNITS: Readonly<Record<ShownQuantity, string>> = {
  temperature: '°C',
  age: 'h',
  residual: 'mg/L',
  growth: '',
  standing: 'h',
}

/** The unit a quantity is shown in. */
export const unitOf = (quantity: ShownQuantity, units: DisplayUnits = METRIC_UNITS): string =>
  quantity === 'temperature' ? units.temperature : UNITS[quantity]

/** A value in the unit it is shown in. */
export const shownValue = (
  value: number,
  { quantity, units }: { quantity: ShownQuantity; units: DisplayUnits },
): number => (quantity === 'temperature' && units.temperature === '°F' ? inOtherUnit(value, '°F') : value)

const DECIMALS: Readonly<Record<ShownQuantity, number>> = {
  temperature: 1,
  age: 1,
  residual: 2,
  growth: 2,
  standing: 1,
}

/** A predicted figure in the reader's unit, no finer than a prediction deserves. `brief` is for the few characters beside a mark. */
export function showPredicted(
  value: number,
  { quantity, units = METRIC_UNITS, brief = false }: { quantity: ShownQuantity; units?: DisplayUnits; brief?: boolean },
): Shown {
  const there = shownValue(value, { quantity, units })
  const decimals = decimalsFor(Math.abs(there), { quantity, brief })
  return inWords(
    there
      .toFixed(decimals)
      .replace(/^-(?=[0.]*$)/, '')
      .replace('-', '−'),
    unitOf(quantity, units),
  )
}

const inWords = (text: string, unit: string): Shown => ({ text, unit, words: unit === '' ? text : `${text} ${unit}` })

/** A tenth of an hour is not worth saying of days; beside a mark hardly of half a day, and of degrees not at all. */
function decimalsFor(size: number, { quantity, brief }: { quantity: ShownQuantity; brief: boolean }): number {
  if (quantity === 'temperature') return brief ? 0 : DECIMALS.temperature
  return size >= (brief ? BRIEF_FROM : WHOLE_FROM) ? 0 : DECIMALS[quantity]
}

const BRIEF_FROM = 10
const WHOLE_FROM = 100

type Tenth = 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9
export type ScaleTone = Extract<Tone, `scale-${number}`>

/** The ten tones from low to high. */
export const SCALE_TONES: readonly ScaleTone[] = Array.from(
  { length: 10 },
  (_, at): ScaleTone => `scale-${at as Tenth}`,
)

/** Where a value lies on the even scale of its quantity. */
export function toneOf(value: number, quantity: ShownQuantity): ScaleTone {
  const above = display.steps[quantity].edges.filter((edge) => value >= edge).length
  return SCALE_TONES[above] ?? 'scale-9'
}

/** The steps of a scale in words, from low to high: `below 20 °C`, `20 to 25`, …, `60 °C and above`. */
export function stepWords(quantity: ShownQuantity, units: DisplayUnits = METRIC_UNITS): string[] {
  const { edges } = display.steps[quantity]
  const unit = unitOf(quantity, units)
  const said = edges.map((edge) => inWords(plainText(shownValue(edge, { quantity, units })), unit))
  const inner = said.slice(1).map((upper, at) => `${said[at]?.text ?? ''} to ${upper.text}`)
  return [`below ${said[0]?.words ?? ''}`, ...inner, `${said.at(-1)?.words ?? ''} and above`]
}
