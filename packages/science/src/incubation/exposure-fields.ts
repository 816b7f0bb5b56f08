import models from '@rillmark/reference/incubation/models.json' with { type: 'json' }
import * as z from 'zod'
import { minutesOfOffset, readDayOrMoment } from '../calendar/day-or-moment.ts'
import { field, levelField, refuse } from '../catalogue/fields.ts'
import { describeReceived } from '../catalogue/issue.ts'
import { incubationDistribution, titleOf } from './incubation-model.ts'
import { casesOf, modelsOf, sourceOf, writtenTimes } from './exposure-reading.ts'
import { possibleTimes } from './possible-times.ts'

/** More cases than any outbreak of this disease has had. */
const MOST_ONSETS = 2000
const MOST_MODELS = 8
const MOST_STAYS = 60
const LONGEST_SOURCE_DAYS = 120
/** Far enough either side for any outbreak; keeps dates of four digits. */
const [EARLIEST, LATEST] = ['1900-01-01', '2200-12-31']

const moment = () =>
  z.string().superRefine((text, context) => {
    const day = text.slice(0, EARLIEST.length)
    if (readDayOrMoment(text, 0) === undefined || day < EARLIEST || day > LATEST)
      context.addIssue(
        refuse([], {
          expected: `a day as YYYY-MM-DD or a moment as YYYY-MM-DDThh:mm, from ${EARLIEST} to ${LATEST}`,
          received: describeReceived(text),
        }),
      )
  })

const stay = z.strictObject({
  from: field(moment(), { what: 'from; day or moment' }),
  to: field(moment(), { what: 'to; that day or moment included' }),
})

const onset = z.strictObject({
  from: field(moment(), {
    what: 'onset; day (2026-03-10) or moment (2026-03-10T14:00), the earliest it can be where a latest is given',
  }),
  to: field(moment().optional(), { what: 'latest it can be; where onset is only known to lie between two days' }),
  present: field(z.array(stay).max(MOST_STAYS).default([]), {
    what: 'stays in which this case could be exposed; none where at any time',
  }),
})

/** Text alone is an onset; a name alone a published model. */
const orShort = <Schema extends z.ZodType>(schema: Schema, whole: (text: string) => unknown) =>
  z.preprocess((given) => (typeof given === 'string' ? whole(given) : given), schema)

/** Below 1 most people would fall ill at once: no incubation. */
const shape = (what: string) => field(z.number().min(1).max(500), { what })
const LEAST_TAIL_SHAPE = 0.1
const days = (what: string) => field(z.number().min(0.01).max(1000), { what, unit: 'd' })
const published = z.enum(models.models.map(({ id }) => id))

const model = z.discriminatedUnion('family', [
  z.strictObject({ family: z.literal('published'), id: field(published, { what: 'published model' }) }),
  z.strictObject({ family: z.literal('gamma'), shape: shape('shape'), scaleDays: days('scale') }),
  z.strictObject({
    family: z.literal('lognormal'),
    medianDays: days('median'),
    sdLog: field(z.number().min(0.01).max(5), { what: 'standard deviation of the natural logarithm' }),
  }),
  z.strictObject({ family: z.literal('weibull'), shape: shape('shape'), scaleDays: days('scale') }),
  z.strictObject({
    family: z.literal('burr'),
    shape: shape('shape'),
    tailShape: field(z.number().min(LEAST_TAIL_SHAPE).max(500), {
      what: 'shape of the tail; the share above x is (1 + (x/scale)^shape)^−tail shape',
    }),
    scaleDays: days('scale'),
  }),
  z.strictObject({
    family: z.literal('by-day'),
    cases: field(
      z
        .array(z.int().min(0).max(1_000_000))
        .min(1)
        .max(100)
        .refine((counts) => counts.some((count) => count > 0), 'at least one case'),
      { what: 'cases by full days after exposure; the first is the first 24 hours' },
    ),
  }),
])

/**
 * What `exposure-time` takes, checked: dates that exist, ends after starts, and onsets that at least one of the models can explain.
 *
 * @source none: it computes nothing of the trade
 */
export const exposureInput = z
  .strictObject({
    onsets: field(
      z
        .array(orShort(onset, (from) => ({ from })))
        .min(1)
        .max(MOST_ONSETS),
      {
        what: 'onsets; each a day, a moment, or a stretch from … to',
      },
    ),
    model: field(published.optional(), {
      what: `incubation model; ${models.usual} where no model is given at all. gamma-a is of a point source, gamma-b and gamma-c of visitors of a fair`,
    }),
    models: field(
      z
        .array(orShort(model, (id) => ({ family: 'published', id })))
        .max(MOST_MODELS)
        .default([]),
      {
        what: 'further incubation models; the name of a published one, or gamma (shape, scaleDays), lognormal (medianDays, sdLog), weibull (shape, scaleDays), burr (shape, tailShape, scaleDays) or by-day (cases). Each gives its own answer, and all together one more',
      },
    ),
    durationDays: field(z.number().min(0).max(LONGEST_SOURCE_DAYS).default(0), {
      what: 'how long the source worked; 0 for one moment. Its start is looked for',
      unit: 'd',
    }),
    between: field(
      z
        .strictObject({
          from: field(moment().optional(), { what: 'not before; day or moment' }),
          to: field(moment().optional(), { what: 'not after; that day or moment included' }),
        })
        .optional(),
      { what: 'the source worked only between' },
    ),
    utcOffset: field(
      z
        .string()
        .refine((text) => minutesOfOffset(text) !== undefined, 'an offset as +02:00 or Z')
        .optional(),
      { what: 'offset of local time; of the first moment that has one where not given' },
    ),
    level: levelField(),
  })
  .superRefine((input, context) => {
    const backwards = backwardStretches(input)
    for (const { path, from } of backwards) context.addIssue(refuse(path, `later than ${from}`))
    if (backwards.length > 0 || !isReadable(input)) return
    const { cases, source } = { cases: casesOf(input).cases, source: sourceOf(input) }
    const tries = modelsOf(input).map((one) => ({
      one,
      ...possibleTimes(incubationDistribution(one), { cases, source }),
    }))
    const nearest = tries.reduce((a, b) =>
      (b.impossibleCase ?? cases.length) > (a.impossibleCase ?? cases.length) ? b : a,
    )
    const { one, impossibleCase } = nearest
    if (impossibleCase !== undefined)
      context.addIssue(
        refuse(['onsets', impossibleCase], {
          expected: `an onset that the same source can explain as ${impossibleCase === 0 ? 'the limits of the source' : 'those before it'}, by ${titleOf(one)}`,
          received: `${input.onsets[impossibleCase]?.from ?? ''}: no time of exposure is left`,
        }),
      )
  })

export type ExposureTimeInput = z.output<typeof exposureInput>

interface From {
  from?: string | undefined
  to?: string | undefined
}

function backwardStretches(input: ExposureTimeInput): { path: (string | number)[]; from: string }[] {
  const all: { path: (string | number)[]; stretch: From }[] = [
    ...input.onsets.flatMap((each, i) => [
      { path: ['onsets', i, 'to'], stretch: each },
      ...each.present.map((part, j) => ({ path: ['onsets', i, 'present', j, 'to'], stretch: part })),
    ]),
    { path: ['between', 'to'], stretch: input.between ?? {} },
  ]
  return all.flatMap(({ path, stretch: { from, to } }) => {
    if (from === undefined || to === undefined) return []
    const [start, end] = [readDayOrMoment(from, 0), readDayOrMoment(to, 0)]
    return start !== undefined && end !== undefined && end.to <= start.from ? [{ path, from }] : []
  })
}

/** Other complaints stand already; what follows would only repeat them. */
function isReadable(input: ExposureTimeInput): boolean {
  const { onsets, utcOffset, durationDays, models: own } = input
  const isBounded = durationDays >= 0 && durationDays <= LONGEST_SOURCE_DAYS && own.length <= MOST_MODELS
  return (
    isBounded &&
    onsets.length > 0 &&
    onsets.length <= MOST_ONSETS &&
    own.every((one) => model.safeParse(one).success) &&
    (utcOffset === undefined || minutesOfOffset(utcOffset) !== undefined) &&
    writtenTimes(input).every((text) => readDayOrMoment(text, 0) !== undefined)
  )
}
