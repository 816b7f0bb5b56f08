import type { Head } from '@rillmark/casebook/chain/link.ts'
import { sha256Hex } from '@rillmark/casebook/entry/fields.ts'
import * as z from 'zod'
import { fetchInSession } from '../sync/session.ts'

const answerSchema = z.object({ head: z.object({ sequence: z.int().min(0), hash: sha256Hex }) })

/** Where the record ends on the server; undefined where it can't be reached or answers something else. */
export async function serverHead(investigation: string, after: number): Promise<Head | undefined> {
  try {
    const path = `/api/investigations/${encodeURIComponent(investigation)}/entries?after=${after}&limit=1`
    const response = await fetchInSession(path)
    const read = answerSchema.safeParse(response.ok ? await response.json() : undefined)
    return read.success ? read.data.head : undefined
  } catch {
    return undefined
  }
}
