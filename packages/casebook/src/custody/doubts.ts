import { happenedAt } from './happened-at.ts'
import type { Consignment } from './state.ts'

const MINUTE_MS = 60_000

/**
 * What does not fit in what was written of a consignment, for a person to look at: a sample packed after the seal by the times written
 * (two devices without a network can't know of each other), one hand before the other by the times written, and a seal the laboratory read
 * otherwise. Clocks agree to a minute.
 */
export function custodyDoubts(box: Consignment): string[] {
  return [...packedAfterSeal(box), ...handsOutOfOrder(box), ...sealReadOtherwise(box)]
}

function packedAfterSeal({ events }: Consignment): string[] {
  return events.flatMap((seal, at) => {
    if (seal.kind !== 'consignment.sealed') return []
    const sealedMs = Date.parse(happenedAt(seal))
    const late = events
      .slice(0, at)
      .flatMap((event) =>
        event.kind === 'sample.packed' && Date.parse(event.instant) >= sealedMs + MINUTE_MS ? [event.body.label] : [],
      )
    return late.length === 0
      ? []
      : [`${late.join(', ')} packed after seal ${seal.body.seal} was put on, by the times written`]
  })
}

const HANDS: ReadonlySet<string> = new Set(['consignment.handed-over', 'consignment.accepted', 'consignment.received'])

function handsOutOfOrder({ events }: Consignment): string[] {
  const hands = events.filter(({ kind }) => HANDS.has(kind))
  const early = hands.some(
    (hand, at) => at > 0 && Date.parse(happenedAt(hand)) + MINUTE_MS <= Date.parse(happenedAt(hands[at - 1] ?? hand)),
  )
  return early ? ['the hands it went through are not in the order of the times written'] : []
}

function sealReadOtherwise({ seal, received }: Consignment): string[] {
  const read = received?.body.sealRead
  if (read === undefined || seal === undefined || read === seal.body.seal) return []
  return [`the laboratory read seal ${read}, the record says ${seal.body.seal}`]
}
