import { linkEnvelopeSchema } from '@rillmark/casebook/chain/link.ts'
import { envelopeSchema } from '@rillmark/casebook/entry/entry.ts'
import { sha256Hex } from '@rillmark/casebook/entry/fields.ts'
import * as z from 'zod'

export const investigationParams = z.strictObject({ id: envelopeSchema.shape.investigation })
export const attachmentParams = z.strictObject({ sha256: sha256Hex })

export const issueSchema = z.object({ path: z.string(), expected: z.string(), received: z.string() })
export const problemSchema = z.object({ issues: z.array(issueSchema) }).describe('What was wrong, all at once')

export const headSchema = z.object({ sequence: z.int().min(0), hash: sha256Hex }).describe('Where a record ends')

export const linkSchema = linkEnvelopeSchema.describe('An entry in its place in the chain')

export const summarySchema = z.object({
  id: z.string(),
  title: z.string(),
  locality: z.string().optional(),
  openedOn: z.string().optional(),
  closedOn: z.string().optional(),
  head: headSchema,
  counts: z.object({ entries: z.int(), cases: z.int(), samples: z.int(), results: z.int() }),
})

export const refusals = { 400: problemSchema, 403: problemSchema, 404: problemSchema, 422: problemSchema }
