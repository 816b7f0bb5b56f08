import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule } from '../rules/rule.ts'

/** The other half of a hand-over is written by the receiver's own device, the one the giver named, which has joined with a key of its own. */
export const acceptedByReceiver: Rule<'consignment.accepted'> = ({ body, device }, { state }) => {
  const box = state.custody.consignments.get(body.consignment)
  const handOver = box?.events.find(({ id }) => id === body.handOver)
  if (handOver?.kind !== 'consignment.handed-over' || handOver.body.signedBy?.way !== 'device') return []
  const named = handOver.body.signedBy.device
  return device === named && device !== handOver.device && state.devices.has(device)
    ? []
    : [issue('device', { expected: `${named}, the receiver's own device, joined`, received: device })]
}
