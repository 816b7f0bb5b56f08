import table from '@rillmark/reference/inactivation/heat.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { type Estimate, estimateField, estimateOf } from './estimate.ts'
import { onLogLine } from './log-line.ts'

export interface HeatInactivationInput {
  temperatureC: number
  minutes: number
}

export interface HeatInactivation {
  decimalReductionMinutes: Estimate
  log10Reduction: Estimate
  studies: { name: string; decimalReductionMinutes: number; measuredHere: boolean }[]
  basis: string
}

/**
 * How long heat takes to kill nine tenths of Legionella in water (minutes), and what a time at a temperature does (log10).
 * Wanted to judge a heat disinfection, or a heater's temperature, without trusting one number: published values disagree.
 *
 * reduction = t / D(T); each study's D is a straight line of log D between its points, beyond them by the pooled z of
 * 5.29 °C; the middle is the median over the studies, the ends the fastest and the slowest.
 *
 * Special cases: 0 minutes reduce by 0. Below 45 °C Legionella grows and above 80 °C nothing was tested: refused.
 *
 * @param input temperature of the water itself 45 to 80 °C, minutes at least 0
 * @source sanden-1989
 * @source who-2007-heat
 * @source legionella-specialists
 * @source dennis-1984
 * @source stout-1986
 * @example
 * heatInactivation({ temperatureC: 60, minutes: 6 }).log10Reduction.central // => 3
 */
export function heatInactivation({ temperatureC, minutes }: HeatInactivationInput): HeatInactivation {
  const studies = table.sets.map(({ name, points }) => ({
    name,
    decimalReductionMinutes: onLogLine(
      points.map((point) => ({ temperatureC: point.temperatureC, value: point.minutes })),
      { temperatureC, zC: table.zC },
    ),
    measuredHere:
      points.some((point) => point.temperatureC <= temperatureC) &&
      points.some((point) => point.temperatureC >= temperatureC),
  }))
  const decimal = estimateOf(studies.map((each) => each.decimalReductionMinutes))
  const within = studies.filter((each) => each.measuredHere).length
  return {
    decimalReductionMinutes: decimal,
    log10Reduction: {
      central: minutes / decimal.central,
      lower: minutes / decimal.upper,
      upper: minutes / decimal.lower,
    },
    studies,
    basis: `Published values disagree: ${studies.length} sets from ${SOURCES} sources, ${within} of them measured at or around this temperature, the others drawn on with ${table.zC} °C for a tenfold change. Beyond ${table.mostLog10.value} log10 nothing was measured. Suspended cells; those in biofilm or amoebae last longer.`,
  }
}

/** The pooled z is one of them. */
const SOURCES = new Set(table.sets.map(({ source }) => source)).size
/** The temperatures for which killing by heat is told (°C). */
export const heatInactivationRangeC = table.rangeC
const { lower, upper } = heatInactivationRangeC

export const heatInactivationCalculation = defineCalculation({
  id: 'heat-inactivation',
  title: 'Killing by heat',
  purpose: 'How fast hot water kills Legionella, as a range: published values disagree several times over.',
  formula: {
    text: 'reduction = t / D(T); log D on straight lines between the points of each study; median, least and most over the studies',
    symbols: {
      reduction: 'log10Reduction.central',
      t: 'minutes',
      T: 'temperatureC',
      D: 'decimalReductionMinutes.central',
    },
  },
  input: z.strictObject({
    temperatureC: field(z.number().min(lower).max(upper), {
      what: 'temperature the water itself has, all the time',
      unit: '°C',
    }),
    minutes: field(measure.amount(), { what: 'how long it has it', unit: 'min' }),
  }),
  output: z.object({
    decimalReductionMinutes: estimateField({ what: 'time to kill nine tenths', unit: 'min' }),
    log10Reduction: estimateField({ what: 'reduction in powers of ten' }),
    studies: field(
      z.array(
        z.object({
          name: field(z.string(), { what: 'study' }),
          decimalReductionMinutes: field(z.number(), { what: 'time to kill nine tenths', unit: 'min' }),
          measuredHere: field(z.boolean(), { what: 'whether the temperature lies within what it measured' }),
        }),
      ),
      { what: 'what each set of values says' },
    ),
    basis: field(z.string(), { what: 'how far the figures reach' }),
  }),
  sources: sourcesOf(
    'sanden-1989',
    'who-2007-heat',
    'legionella-specialists',
    'dennis-1984',
    'stout-1986',
    'allegra-2011',
  ),
  cautions: [
    'Killed means no colony: after 30 min at 70 °C one study still found 5 to 72 % of cells alive but not culturable. Dead ends and biofilm stay cooler.',
    'Bodies disagree on heat disinfection of drinking water systems: some describe it, CDC and ASHRAE advise against it. Follow the local code.',
    'Such water scalds in seconds: close outlets off, warn, and let licensed trades do it. Pipes, valves and linings may not bear the heat.',
  ],
  example: {
    input: { temperatureC: 60, minutes: 6 },
    output: {
      decimalReductionMinutes: {
        central: 2,
        lower: 0.74,
        upper: 3.125,
      },
      log10Reduction: {
        central: 3,
        lower: 1.92,
        upper: 8.108108108108109,
      },
      studies: [
        {
          name: 'chlorine-free, demand-free water, 1989',
          decimalReductionMinutes: 0.74,
          measuredHere: true,
        },
        {
          name: 'guideline range, fastest strain',
          decimalReductionMinutes: 2,
          measuredHere: true,
        },
        {
          name: 'guideline range, slowest strain',
          decimalReductionMinutes: 2,
          measuredHere: true,
        },
        {
          name: 'pooled literature',
          decimalReductionMinutes: 2,
          measuredHere: true,
        },
        {
          name: 'laboratory study, 1984',
          decimalReductionMinutes: 2.5123458065845625,
          measuredHere: false,
        },
        {
          name: 'hospital heater study, 1986',
          decimalReductionMinutes: 3.125,
          measuredHere: true,
        },
      ],
      basis:
        'Published values disagree: 6 sets from 5 sources, 5 of them measured at or around this temperature, the others drawn on with 5.29 °C for a tenfold change. Beyond 8 log10 nothing was measured. Suspended cells; those in biofilm or amoebae last longer.',
    },
  },
  run: heatInactivation,
})
