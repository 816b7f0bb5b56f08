import spread from '@rillmark/reference/incubation/spread.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { exposureInput } from './exposure-fields.ts'
import { exposureTimeExample } from './exposure-time-example.ts'
import { type ExposureTime, exposureTime } from './exposure-time.ts'

const { doubtedUnder, givenUpUnder } = spread.figures

const moment = (what: string) => field(z.string(), { what })
const number = (what: string) => field(z.number(), { what })
const days = (what: string) => field(z.number(), { what, unit: 'd' })
const times = (what: string) => field(z.object({ lower: z.string(), upper: z.string() }), { what })
const chance = () =>
  field(z.number().optional(), {
    what: 'chance that one source spreads its onsets at least so far, 0 to 1; left out with one case or with stays',
  })

const modelAnswer = z.object({
  model: moment('incubation model'),
  weight: number('weight, 0 to 1'),
  mostLikely: field(z.string().optional(), {
    what: 'likeliest time; left out where the model cannot explain the onsets',
  }),
  interval: field(z.object({ lower: z.string(), upper: z.string() }).optional(), {
    what: 'profile-likelihood interval',
  }),
  mostLikelyDays: field(z.number().optional(), { what: 'likeliest time, days from the first onset', unit: 'd' }),
  intervalDays: field(z.object({ lower: z.number(), upper: z.number() }).optional(), {
    what: 'interval, days from the first onset',
    unit: 'd',
  }),
  logLikelihood: field(z.number().optional(), { what: 'log-likelihood at the likeliest time' }),
  backFromMedian: moment('one median incubation before the median onset; a check by hand'),
  chanceOfSpread: chance(),
})

const output = z.object({
  mostLikely: moment('likeliest time of exposure; of its start where the source lasted. Local time'),
  mostLikelyDay: moment('the day it falls on'),
  interval: times('between; profile-likelihood interval'),
  credibleInterval: times('credible interval; before the onsets, every time as likely as the next'),
  fits: field(z.enum(['yes', 'doubtful', 'no']), {
    what: `whether one source explains so wide a spread; doubtful under a chance of ${doubtedUnder.value}, no under ${givenUpUnder.value}`,
  }),
  chanceOfSpread: chance(),
  possible: field(z.object({ from: z.string().optional(), to: z.string() }), {
    what: 'earliest and latest it can be at all; the earliest left out where nothing bounds it',
  }),
  onsets: number('onsets used'),
  models: field(z.array(modelAnswer), {
    what: 'by incubation model; the weight is its share of the joint likelihood, all alike beforehand',
  }),
  days: field(z.array(z.object({ date: moment('day'), share: number('chance that it was this day, 0 to 1') })), {
    what: 'chance by day; before the onsets, every day as likely as the next',
  }),
  curve: field(
    z.array(
      z.object({ at: moment('time'), relativeLikelihood: number('likelihood relative to the likeliest, 0 to 1') }),
    ),
    { what: 'likelihood over time' },
  ),
  supported: field(z.array(z.object({ from: moment('from'), to: moment('to') })), {
    what: 'parts of the interval; more than one where times between are not supported',
  }),
  mostLikelyDays: days('likeliest time, days from the first onset; before it where negative'),
  intervalDays: intervalField({ what: 'interval, days from the first onset', unit: 'd' }),
  credibleIntervalDays: intervalField({ what: 'credible interval, days from the first onset', unit: 'd' }),
  countedFrom: moment('day of the first onset; days count from its midnight'),
  level: number('level of both intervals'),
})

/** Likelihoods looked at for one answer, and what one costs: measured, rounded up. */
const LOOKS = 1000
const ONE_LOOK_MS = 0.001
const ONE_EXPOSED_LOOK_MS = 0.008

const SHOWN_DIGITS = 2

/** Onsets so far apart that the time may be of no source at all. */
function spreadDoubt({ fits, chanceOfSpread = 0 }: Pick<ExposureTime, 'fits' | 'chanceOfSpread'>): string[] {
  if (fits === 'yes') return []
  const { says, under } =
    fits === 'no'
      ? { says: 'One source of this duration does not explain onsets so far apart', under: givenUpUnder.value }
      : { says: 'One source of this duration hardly explains onsets so far apart', under: doubtedUnder.value }
  const chance = chanceOfSpread === 0 ? 'next to 0' : String(Number(chanceOfSpread.toPrecision(SHOWN_DIGITS)))
  return [
    `${says}: the chance is ${chance}, below ${under}. Do not lean on the time given: think of a source that lasted or came back, of several sources, or of a case that does not belong.`,
  ]
}

export const exposureTimeCalculation = defineCalculation({
  id: 'exposure-time',
  title: 'Likeliest time of exposure',
  purpose: 'When one common source most likely exposed the people who fell ill, and how far that is certain.',
  formula: {
    text: 'ℓ(t) = Σ ln [F(b − t) − F(a − t)]; interval: every t with 2(ℓ max − ℓ(t)) ≤ χ²; together = mean of e^ℓ over the models',
    symbols: {
      t: 'start of the source; mostLikely where ℓ is highest',
      a: 'start of an onset',
      b: 'end of an onset; the midnight after, for a day',
      F: 'incubation distribution of a model',
      'χ²': 'quantile of the level, 1 degree of freedom',
    },
  },
  input: exposureInput,
  output,
  sources: sourcesOf(
    'egan-2011',
    'cdc-point-source',
    'incubation-gamma-a',
    'incubation-gamma-b',
    'incubation-gamma-c',
    'jamieson-2024',
    'common-practice',
  ),
  cautionsFor: ({ result }) => spreadDoubt(result),
  cautions: [
    'It assumes that one source exposed everyone, at one time or over the time given. A building’s water often exposes people for weeks; then this time means little. Look whether one source fits the spread.',
    'A lead for asking questions, not a proof. The published incubation times come from few outbreaks; people with weakened immunity may fall ill later.',
  ],
  example: exposureTimeExample,
  run: exposureTime,
  costMs: (input) => {
    const { onsets, models, durationDays } = (typeof input === 'object' && input !== null ? input : {}) as Record<
      string,
      unknown
    >
    const cases = Array.isArray(onsets) ? new Set(onsets.map((each) => JSON.stringify(each))).size : 0
    const many = 1 + (Array.isArray(models) ? models.length : 0)
    const lasts = typeof durationDays === 'number' && durationDays > 0
    return cases * many * 2 * LOOKS * (lasts ? ONE_EXPOSED_LOOK_MS : ONE_LOOK_MS)
  },
})
