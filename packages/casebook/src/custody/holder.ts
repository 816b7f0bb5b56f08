import type { EffectiveEntry } from '../state/effective.ts'
import type { Consignment } from './state.ts'

export interface Worker {
  readonly name: string
  readonly role: string
}

type HandOver = EffectiveEntry<'consignment.handed-over'>

/** Who holds a consignment: the one who took it over last; nobody yet before the first hand-over. One that waits for the receiver's own device does not count until it is accepted. */
export function holderOf(box: Consignment): Worker | undefined {
  const waiting = waitingHandOver(box)
  return handOvers(box).findLast((handOver) => handOver !== waiting)?.body.to
}

/** The hand-over whose receiver has still to accept it on their own device; only the last one can wait. */
export function waitingHandOver(box: Consignment): HandOver | undefined {
  const last = handOvers(box).at(-1)
  return last === undefined || last.body.signedBy?.way !== 'device' || acceptanceOf(box, last.id) !== undefined
    ? undefined
    : last
}

/** What the receiver's own device wrote of a hand-over. */
export function acceptanceOf(box: Consignment, handOver: string): EffectiveEntry<'consignment.accepted'> | undefined {
  return box.events.find((event) => event.kind === 'consignment.accepted' && event.body.handOver === handOver) as
    | EffectiveEntry<'consignment.accepted'>
    | undefined
}

function handOvers(box: Consignment): HandOver[] {
  return box.events.filter((event): event is HandOver => event.kind === 'consignment.handed-over')
}
