import { createHash } from 'node:crypto'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import type { ReceiptBody } from '@rillmark/casebook/custody/receipt-form.ts'
import { laboratoryDevice } from '@rillmark/casebook/devices/server-names.ts'
import { Problem, problem } from '../http/problem.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import type { ConsignmentLink } from './consignment-links.ts'
import { writeSigned } from './signed-writing.ts'

type Receipt = Pick<AccessRouteOptions, 'access' | 'records' | 'key'> & { readonly body: ReceiptBody }

export interface Received {
  readonly received: { readonly entry: string; readonly sequence: number }
}

/** Writes the receipt of a link's consignment, once; of the same sent again, where it stands. Ask one after another for each link. */
export async function writeReceipt(link: ConsignmentLink, receipt: Receipt): Promise<Received> {
  const { body, access, records, key } = receipt
  const { investigation, consignment, number } = link
  const before = await writtenBefore(link, receipt)
  if (before !== undefined) return { received: before }
  const { state } = await records.state(investigation)
  if (state.custody.consignments.get(consignment)?.received !== undefined)
    throw problem(409, { path: 'received', expected: 'a consignment not yet received', received: consignment })
  const id = entryIdOf(link)
  const hand = {
    device: laboratoryDevice(number),
    role: 'laboratory',
    name: body.laboratory,
    author: body.receivedBy.name,
    key: key(),
  } as const
  const proposal = { kind: 'consignment.received', body: { ...body, consignment } } as const
  const outcome = await writeSigned(records, { investigation, hand, nowMs: access.now(), proposal, id })
  const written = outcome.accepted.find((each) => each.id === id)
  if (written === undefined)
    throw new Problem(
      422,
      outcome.refused.flatMap(({ issues }) => issues),
    )
  access.links.setReceived(number, id)
  return { received: { entry: id, sequence: written.sequence } }
}

/** Where this very receipt stands already: the answer to it was lost on its way. */
async function writtenBefore(
  link: ConsignmentLink,
  { body, access, records }: Receipt,
): Promise<Received['received'] | undefined> {
  const { investigation, consignment, number } = link
  const id = entryIdOf(link)
  const sequence = (await records.ledger.sequencesOf(investigation, [id])).get(id)
  if (sequence === undefined) return undefined
  const [found] = await records.ledger.read(investigation, { after: sequence - 1, limit: 1 })
  if (canonicalJson(found?.entry.body) !== canonicalJson({ ...body, consignment })) return undefined
  access.links.setReceived(number, id)
  return { entry: id, sequence }
}

/** The id of a link's one receipt follows from the link, so that no second one can be written (version 8 of RFC 9562). */
function entryIdOf({ investigation, number, made }: ConsignmentLink): string {
  const hex = createHash('sha256').update(`receipt/${investigation}/${number}/${made}`).digest('hex')
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`
}
