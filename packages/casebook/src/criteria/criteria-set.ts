import * as z from 'zod'
import { isoDate } from '../entry/fields.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { sourcedFields } from '../units/figure.ts'
import { concentrationUnitSchema } from '../units/quantity.ts'
import { followUpRuleSchema } from '@rillmark/science/follow-up/follow-up-rule.ts'

const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case letters, digits and dashes')
  .max(60)
const words = (max: number) => z.string().trim().min(1).max(max)

/** How urgent a band is: for order and for a word on the screen, never shown by colour alone. */
const URGENCIES = ['none', 'watch', 'act', 'act now'] as const

/** Where a band begins. `reaches` counts the value itself, `exceeds` does not. */
const boundSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('not-detected') }),
  z.strictObject({ kind: z.literal('detected') }),
  z.strictObject({ kind: z.literal('reaches'), value: z.number().positive() }),
  z.strictObject({ kind: z.literal('exceeds'), value: z.number().positive() }),
])
export type BandBound = z.infer<typeof boundSchema>

const bandSchema = z.strictObject({
  id,
  label: words(60),
  from: boundSchema,
  urgency: z.enum(URGENCIES),
  action: words(400),
  ...sourcedFields,
})

const scaleSchema = z
  .strictObject({
    id,
    title: words(120),
    water: z.enum(['potable', 'non-potable']),
    appliesTo: words(300).optional(),
    unit: concentrationUnitSchema,
    bands: z.array(bandSchema).min(2).max(12),
  })
  .superRefine((scale, context) => {
    if (scale.bands[0]?.from.kind !== 'not-detected')
      context.addIssue({
        code: 'custom',
        path: ['bands', 0, 'from'],
        message: 'the first band to begin at not-detected',
      })
    for (const [index, band] of scale.bands.entries()) {
      const before = scale.bands[index - 1]
      if (before !== undefined && rank(band.from) <= rank(before.from))
        context.addIssue({ code: 'custom', path: ['bands', index, 'from'], message: 'bands in rising order' })
    }
  })

const shareBandSchema = z.strictObject({
  id,
  label: words(60),
  from: z.strictObject({ kind: z.enum(['reaches', 'exceeds']), fraction: z.number().min(0).max(1) }),
  urgency: z.enum(URGENCIES),
  action: words(400),
  ...sourcedFields,
})

const shareRuleSchema = z
  .strictObject({
    title: words(120),
    /** which samples are counted: all positives, or only those of one band */
    of: words(300),
    ofBand: id.optional(),
    bands: z.array(shareBandSchema).min(2).max(8),
  })
  .superRefine((rule, context) => {
    const first = rule.bands[0]?.from
    if (first?.kind !== 'reaches' || first.fraction !== 0)
      context.addIssue({ code: 'custom', path: ['bands', 0, 'from'], message: 'the first band to begin at reaches 0' })
    for (const [index, band] of rule.bands.entries()) {
      const before = rule.bands[index - 1]
      if (before !== undefined && shareRank(band.from) <= shareRank(before.from))
        context.addIssue({ code: 'custom', path: ['bands', index, 'from'], message: 'bands in rising order' })
    }
  })

const followUpSchema = z.strictObject({
  title: words(160),
  rule: followUpRuleSchema,
  /** what restarts the clock */
  positiveMeans: z.enum(['any detection', 'a band that calls for action', 'the share calls for action']),
  closing: words(400),
  ...sourcedFields,
})

/** Result bands and the action each calls for, share of positives, follow-up and closing rule of one jurisdiction at one date. */
export const criteriaSetSchema = z.strictObject({
  format: z.literal('rillmark/criteria-set@1'),
  id,
  version: words(40),
  /** when this set was last read against its sources */
  date: isoDate,
  title: words(160),
  jurisdiction: words(120),
  status: z.enum(['verified', 'from memory, verify before use']),
  purpose: words(400),
  counts: z.strictObject({
    taxon: z.enum(['Legionella', 'Legionella pneumophila']),
    families: z.array(z.enum(['CFU', 'MPN', 'GU'])).min(1),
    ...sourcedFields,
  }),
  scales: z.array(scaleSchema).max(8),
  share: shareRuleSchema.optional(),
  followUp: followUpSchema.optional(),
  notes: z.array(words(400)).max(12).default([]),
})

export type CriteriaSet = z.infer<typeof criteriaSetSchema>
export type CriteriaScale = CriteriaSet['scales'][number]
export type CriteriaBand = CriteriaScale['bands'][number]
export type ShareBand = z.infer<typeof shareBandSchema>

/** Checks a criteria set someone wrote themselves, telling everything that is wrong at once. */
export function readCriteriaSet(input: unknown): { ok: true; value: CriteriaSet } | { ok: false; issues: Issue[] } {
  return parseWith(criteriaSetSchema, input)
}

function rank(bound: BandBound): number {
  if (bound.kind === 'not-detected') return -2
  if (bound.kind === 'detected') return -1
  return bound.kind === 'reaches' ? bound.value : bound.value + Number.EPSILON * bound.value
}

function shareRank(bound: ShareBand['from']): number {
  return bound.kind === 'reaches' ? bound.fraction : bound.fraction + Number.EPSILON
}
