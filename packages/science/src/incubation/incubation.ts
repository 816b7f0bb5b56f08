import definitions from '@rillmark/reference/incubation/definitions.json' with { type: 'json' }
import models from '@rillmark/reference/incubation/models.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { gammaCdf } from '../distributions/gamma.ts'
import { addDays } from '../calendar/iso-date.ts'
import { publishedModel } from './incubation-model.ts'

export interface IncubationInput {
  onsetDate: string
  definition: string
  model: string
}

export interface IncubationDay {
  date: string
  daysBeforeOnset: number
  /** Chance that exposure fell on this day, 0 to 1. */
  density: number
  inWindow: boolean
}

export interface Incubation {
  window: { from: string; to: string }
  density: IncubationDay[]
  shareInWindow: number
}

/**
 * The days on which a case may have been exposed: the window of a definition, and how likely each day is.
 * Wanted to ask a case about the right days, and to shade them instead of drawing a box.
 *
 * density of day d = F(d + ½) − F(d − ½), F the incubation distribution of the model (days).
 *
 * Special cases: the density runs from onset back over the model's horizon, window or not, and sums to just under 1.
 *
 * @param input onset (YYYY-MM-DD), definition and model (ids of `reference/incubation/`)
 * @throws RangeError when the definition or model is unknown, or onset isn't a date
 * @source ecdc-surveillance
 * @source cste-19-id-04
 * @source incubation-gamma-a
 * @example
 * incubation({ onsetDate: '2026-03-15', definition: '2-10', model: 'gamma-a' }).window // => {"from": "2026-03-05", "to": "2026-03-13"}
 */
export function incubation(input: IncubationInput): Incubation {
  const { shortestDays, longestDays } = found(definitions.definitions, input.definition)
  const cumulative = incubationCdf(input.model)
  const density = Array.from({ length: models.horizonDays + 1 }, (_, days) => ({
    date: addDays(input.onsetDate, -days),
    daysBeforeOnset: days,
    density: cumulative(days + 0.5) - cumulative(days - 0.5),
    inWindow: days >= shortestDays && days <= longestDays,
  }))
  return {
    window: { from: addDays(input.onsetDate, -longestDays), to: addDays(input.onsetDate, -shortestDays) },
    density,
    shareInWindow: density.reduce((sum, day) => sum + (day.inWindow ? day.density : 0), 0),
  }
}

/**
 * The share of incubation periods up to a number of days, as a function, 0 to 1.
 *
 * @param model id of `reference/incubation/models.json`
 * @throws RangeError when the model is unknown
 * @source incubation-gamma-a
 * @source incubation-gamma-b
 * @source incubation-gamma-c
 * @example
 * incubationCdf('gamma-a')(0) // => 0
 */
export function incubationCdf(model: string): (days: number) => number {
  const { shape, scaleDays } = publishedModel(model)
  return (days) => gammaCdf(days / scaleDays, { shape })
}

function found<Row extends { id: string }>(rows: Row[], id: string): Row {
  const row = rows.find((each) => each.id === id)
  if (row === undefined) {
    throw new RangeError(
      `Cannot tell an incubation because only ${rows.map((each) => each.id).join(', ')} are known: got ${id}`,
    )
  }
  return row
}

const EXAMPLE = { onsetDate: '2026-03-15', definition: '2-10', model: 'gamma-a' }

/** No case of this disease is older than its description. */
const EARLIEST_ONSET = '1900-01-01'

export const incubationCalculation = defineCalculation({
  id: 'incubation',
  title: 'Days of possible exposure',
  purpose: 'Which days before onset to ask about, by definition, and how likely each is.',
  formula: {
    text: 'window = onset − longest … onset − shortest; density(d) = F(d + ½) − F(d − ½)',
    symbols: { d: 'density[].daysBeforeOnset', F: 'gamma distribution of the model' },
  },
  input: z.strictObject({
    onsetDate: field(
      z.iso.date().refine((date) => date >= EARLIEST_ONSET, `a date since ${EARLIEST_ONSET}`),
      { what: 'date of onset, YYYY-MM-DD' },
    ),
    definition: field(z.enum(definitions.definitions.map(({ id }) => id)), {
      what: 'window, shortest and longest days before onset: 2-10 (European travel), 0-14 (United States), 1-14, 2-14',
    }),
    model: field(z.enum(models.models.map(({ id }) => id)).default(models.usual), {
      what: 'incubation model of the density: gamma-a (point source), gamma-b and gamma-c (visitors of a fair)',
    }),
  }),
  output: z.object({
    window: field(z.object({ from: z.string(), to: z.string() }), { what: 'first and last day of the window' }),
    density: field(
      z.array(
        z.object({
          date: field(z.string(), { what: 'the day' }),
          daysBeforeOnset: field(z.number(), { what: 'days before onset', unit: 'd' }),
          density: field(z.number(), { what: 'chance that exposure fell on it, 0 to 1' }),
          inWindow: field(z.boolean(), { what: 'whether the window holds it' }),
        }),
      ),
      { what: 'each day from onset backwards' },
    ),
    shareInWindow: field(z.number(), { what: 'chance that exposure fell in the window, 0 to 1' }),
  }),
  sources: sourcesOf(
    'ecdc-surveillance',
    'cste-19-id-04',
    'letriwa-2023',
    'fair-2019',
    'incubation-gamma-a',
    'incubation-gamma-b',
    'incubation-gamma-c',
  ),
  cautions: [
    'Windows differ by jurisdiction. People with weakened immunity may fall ill later than the window; do not drop a case for one day.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      window: { from: '2026-03-05', to: '2026-03-13' },
      density: [
        { date: '2026-03-15', daysBeforeOnset: 0, density: 0.00006321426751617532, inWindow: false },
        { date: '2026-03-14', daysBeforeOnset: 1, density: 0.0076734132916032064, inWindow: false },
        { date: '2026-03-13', daysBeforeOnset: 2, density: 0.04434611088841772, inWindow: true },
        { date: '2026-03-12', daysBeforeOnset: 3, density: 0.09811457066048146, inWindow: true },
        { date: '2026-03-11', daysBeforeOnset: 4, density: 0.1391835938148748, inWindow: true },
        { date: '2026-03-10', daysBeforeOnset: 5, density: 0.15354754683640887, inWindow: true },
        { date: '2026-03-09', daysBeforeOnset: 6, density: 0.14421170404030714, inWindow: true },
        { date: '2026-03-08', daysBeforeOnset: 7, density: 0.12113440256399932, inWindow: true },
        { date: '2026-03-07', daysBeforeOnset: 8, density: 0.09374565767250298, inWindow: true },
        { date: '2026-03-06', daysBeforeOnset: 9, density: 0.06814312234432907, inWindow: true },
        { date: '2026-03-05', daysBeforeOnset: 10, density: 0.04714254973853116, inWindow: true },
        { date: '2026-03-04', daysBeforeOnset: 11, density: 0.031334358116615446, inWindow: false },
        { date: '2026-03-03', daysBeforeOnset: 12, density: 0.02014991689332113, inWindow: false },
        { date: '2026-03-02', daysBeforeOnset: 13, density: 0.012602927957882093, inWindow: false },
        { date: '2026-03-01', daysBeforeOnset: 14, density: 0.0076984745022457, inWindow: false },
        { date: '2026-02-28', daysBeforeOnset: 15, density: 0.004607778989597966, inWindow: false },
        { date: '2026-02-27', daysBeforeOnset: 16, density: 0.0027094188187242185, inWindow: false },
        { date: '2026-02-26', daysBeforeOnset: 17, density: 0.0015685332955533982, inWindow: false },
        { date: '2026-02-25', daysBeforeOnset: 18, density: 0.000895610935582658, inWindow: false },
        { date: '2026-02-24', daysBeforeOnset: 19, density: 0.0005051288560323774, inWindow: false },
        { date: '2026-02-23', daysBeforeOnset: 20, density: 0.00028176769676779845, inWindow: false },
      ],
      shareInWindow: 0.9095692585598525,
    },
  },
  run: incubation,
})
