import type { Layer, Mark, Tone } from '../drawing/layers.ts'
import type { ReadingQuantity } from '../fieldwork/kinds.ts'
import { readingAmount } from '../fieldwork/reading-words.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { showTemperature } from '../units/display.ts'
import { TEMPERATURE_BANDS, temperatureBandAt, temperatureBandWords } from './temperature-band.ts'

type Reading = EffectiveEntry<'reading.taken'>

const QUANTITY_WORDS: Readonly<Record<ReadingQuantity, string>> = {
  'hot-temperature': 'hot',
  'cold-temperature': 'cold',
  ph: 'pH',
  'free-chlorine': 'free chlorine',
  'total-chlorine': 'total chlorine',
}

/** The latest readings of each place on the riser diagram: the hot temperature beside it (else the cold), all of them in its words. */
export function readingLayer(state: InvestigationState, units: DisplayUnits = METRIC_UNITS): Layer {
  const byPlace = new Map<string, Reading[]>()
  for (const reading of state.fieldwork.readings) {
    const component = reading.body.component ?? componentOf(state, reading)
    if (component !== undefined) byPlace.set(component, [...(byPlace.get(component) ?? []), reading])
  }
  const marks = [...byPlace].map(([component, readings]) => markOf(component, { readings, units }))
  return {
    name: 'Readings',
    marks,
    legend: TEMPERATURE_BANDS.map((band, index) => ({
      form: 'disc' as const,
      tone: toneAt(index),
      text: temperatureBandWords(band, units),
    })),
    pressing: TEMPERATURE_BANDS.map((_, index) => toneAt(index)),
  }
}

function componentOf(state: InvestigationState, { body }: Reading): string | undefined {
  return state.plan.rounds.get(body.round)?.body.plan.stops.find(({ id }) => id === body.stop)?.component
}

function markOf(component: string, { readings, units }: { readings: readonly Reading[]; units: DisplayUnits }): Mark {
  const latest = (quantity: ReadingQuantity): Reading | undefined =>
    readings.findLast(({ body }) => body.quantity === quantity)
  const shown = latest('hot-temperature') ?? latest('cold-temperature')
  const temperatureC = shown?.body.reading.kind === 'value' ? shown.body.reading.value : undefined
  const label = (Object.keys(QUANTITY_WORDS) as ReadingQuantity[])
    .flatMap((quantity) => latest(quantity) ?? [])
    .map((reading) => readingWords(reading, units))
    .join(', ')
  if (temperatureC === undefined) return { component, form: 'ring', tone: 'muted', size: 'small', label }
  return {
    component,
    form: 'disc',
    tone: toneAt(temperatureBandAt(temperatureC)),
    text: showTemperature(temperatureC, units).text,
    label,
  }
}

/** "hot 43.1 °C", "total chlorine below 0.1 mg/L". */
export function readingWords({ body }: Reading, units: DisplayUnits = METRIC_UNITS): string {
  return `${QUANTITY_WORDS[body.quantity]} ${readingAmount(body.reading, { units })}`
}

/** Bands spread evenly over the ten tones of the scale. */
function toneAt(index: number): Tone {
  const step = Math.round((Math.max(0, index) * 9) / (TEMPERATURE_BANDS.length - 1))
  return `scale-${step as 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9}`
}
