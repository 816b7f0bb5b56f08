import table from '@rillmark/reference/scald/times.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { onLogLine } from '../inactivation/log-line.ts'

export interface ScaldTime {
  secondsAdult?: number
  secondsAdultFullThickness?: number
  secondsChild?: number
  basis: string
}

interface Row {
  temperatureC: number
  seconds: number
}

const PARTIAL = [...table.adultPartial.rows, ...table.adultHotter.rows]
const FULL = [...table.adultFull.rows, ...table.adultHotter.rows]
const CHILD = table.child.rows
const COOLEST_C = Math.min(...PARTIAL.map((row) => row.temperatureC))
const HOTTEST_C = Math.max(...PARTIAL.map((row) => row.temperatureC))
const COOLEST_CHILD_C = Math.min(...CHILD.map((row) => row.temperatureC))

/**
 * How long water of a temperature takes to burn skin (seconds), adults and young children, by a published table.
 * Wanted at every outlet where hot water is raised against Legionella: the cure must not scald.
 *
 * The logarithm of the time is straight between the rows of the table; it is not a formula of burns, none of which
 * reproduces the table.
 *
 * Special cases: below 45 °C the table gives no time and none is returned; that is not a promise. Above the hottest row
 * the last time stands, an upper limit. Below 48.9 °C, where no child's time is published, the adult's is shortened as there.
 *
 * @param input temperature of the water on the skin, 0 to 100 °C
 * @source moritz-henriques-1947
 * @source consumer-safety-scald
 * @source infant-scald
 * @example
 * scaldTime({ temperatureC: 60 }).secondsAdult // => 3
 */
export function scaldTime({ temperatureC }: { temperatureC: number }): ScaldTime {
  if (temperatureC < COOLEST_C) {
    return {
      basis: `The table begins at ${COOLEST_C} °C: below it gives no time. That is not a promise for thin or numb skin.`,
    }
  }
  return {
    secondsAdult: secondsOn(PARTIAL, temperatureC),
    secondsAdultFullThickness: secondsOn(FULL, temperatureC),
    secondsChild: childSeconds(temperatureC),
    basis: basisOf(temperatureC),
  }
}

function secondsOn(rows: readonly Row[], temperatureC: number): number {
  return onLogLine(
    rows.map((row) => ({ temperatureC: row.temperatureC, value: row.seconds })),
    { temperatureC },
  )
}

function childSeconds(temperatureC: number): number {
  const adult = secondsOn(PARTIAL, temperatureC)
  if (temperatureC >= COOLEST_CHILD_C) return Math.min(secondsOn(CHILD, temperatureC), adult)
  return (adult * secondsOn(CHILD, COOLEST_CHILD_C)) / secondsOn(PARTIAL, COOLEST_CHILD_C)
}

function basisOf(temperatureC: number): string {
  const parts = [
    'Interpolated between published times, shortest burn counted (second degree); sources differ up to twofold at 49 °C and sixfold at 60 °C.',
  ]
  if (temperatureC < COOLEST_CHILD_C)
    parts.push(`No child’s time is published below ${COOLEST_CHILD_C} °C: the adult’s, shortened as there.`)
  if (temperatureC > HOTTEST_C) parts.push(`Above ${HOTTEST_C} °C: at most the last time of the table.`)
  return parts.join(' ')
}

export const scaldTimeCalculation = defineCalculation({
  id: 'scald-time',
  title: 'Time to scald',
  purpose: 'How long hot water takes to burn an adult and a young child, from published times.',
  formula: {
    text: 'log t = straight line between the rows of the table, at T',
    symbols: { t: 'secondsAdult', T: 'temperatureC' },
  },
  input: z.strictObject({
    temperatureC: field(z.number().min(0).max(100), { what: 'temperature of the water on the skin', unit: '°C' }),
  }),
  output: z.object({
    secondsAdult: field(z.number().optional(), {
      what: 'time to a second-degree burn, adult; left out below the table',
      unit: 's',
    }),
    secondsAdultFullThickness: field(z.number().optional(), {
      what: 'time to a full-thickness burn, adult; left out below the table',
      unit: 's',
    }),
    secondsChild: field(z.number().optional(), {
      what: 'time to a burn, young child; left out below the table',
      unit: 's',
    }),
    basis: field(z.string(), { what: 'where the times come from and how far they reach' }),
  }),
  sources: sourcesOf('moritz-henriques-1947', 'consumer-safety-scald', 'infant-scald'),
  cautions: [
    'A guide to danger, never a safe time. Old, ill, numb or drugged people burn sooner than healthy adults, and cannot always step away.',
    'Where hot water is raised against Legionella, warn, supervise, and have mixing valves set by a licensed trade; the local code sets the limits at outlets.',
  ],
  example: {
    input: { temperatureC: 55 },
    output: {
      secondsAdult: 17,
      secondsAdultFullThickness: 30,
      secondsChild: 11.807752080861162,
      basis:
        'Interpolated between published times, shortest burn counted (second degree); sources differ up to twofold at 49 °C and sixfold at 60 °C.',
    },
  },
  run: scaldTime,
})
