import * as z from 'zod'
import { custodyView } from './custody-view.ts'
import { holderOf } from './holder.ts'
import { CUSTODY_KINDS } from './kinds.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** One sample as the laboratory sees it before it says how it came. */
export interface ReceiptSample {
  readonly label: string
  readonly kind: string
  readonly collectedAt: string
  readonly offset: string
  readonly volumeMl?: number
  readonly neutralized: boolean
  /** by when its examination should begin */
  readonly deadline?: string
}

/** All that a laboratory is shown of a consignment: nothing of cases, places or people but what travels with the box. */
export interface ReceiptForm {
  readonly consignment: string
  readonly container: string
  readonly seal?: string
  readonly transportC?: { readonly lower: number; readonly upper: number }
  readonly samples: readonly ReceiptSample[]
  /** who brings it, as far as the record says; stays so once it was received */
  readonly from: { readonly name: string; readonly role: string }
  /** the receipt that is in the record already */
  readonly received?: ReceiptBody & { readonly recordedAt: string }
}

/** Far more than a box holds: whoever has a link must not keep the server busy with labels. */
const MOST_SAMPLES = 500
const receivedBody = CUSTODY_KINDS['consignment.received'].body

/** What a laboratory may write through its link: the receipt of its own consignment, and nothing else. */
export const receiptBodySchema = receivedBody
  .omit({ consignment: true })
  .extend({ samples: receivedBody.shape.samples.max(MOST_SAMPLES) })
export type ReceiptBody = z.infer<typeof receiptBodySchema>

/** The receipt form of one consignment; undefined where there is none of that code. */
export function receiptForm(state: InvestigationState, consignment: string): ReceiptForm | undefined {
  const box = state.custody.consignments.get(consignment)
  const view = custodyView(state, 0).consignments.find(({ code }) => code === consignment)
  if (box === undefined || view === undefined) return undefined
  const { range } = view.temperature
  return {
    consignment,
    container: view.container,
    ...(view.seal === undefined ? {} : { seal: view.seal }),
    ...(range === undefined ? {} : { transportC: { lower: range.lowestC, upper: range.highestC } }),
    samples: view.samples.map(
      ({ label, kindWords, collectedAt, offset, volumeMl, neutralized, deadlineMs }): ReceiptSample => ({
        label,
        kind: kindWords,
        collectedAt,
        offset,
        ...(volumeMl === undefined ? {} : { volumeMl }),
        neutralized,
        ...(deadlineMs === undefined ? {} : { deadline: new Date(deadlineMs).toISOString() }),
      }),
    ),
    from: holderOf(box) ?? { name: box.opened.author, role: 'opened it' },
    ...(box.received === undefined ? {} : { received: receivedOf(box.received) }),
  }
}

function receivedOf({
  body,
  instant,
}: {
  body: z.infer<(typeof CUSTODY_KINDS)['consignment.received']['body']>
  instant: string
}): ReceiptBody & { recordedAt: string } {
  const { consignment: _, ...receipt } = body
  return { ...receipt, recordedAt: instant }
}
