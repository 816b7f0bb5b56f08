import { askServer, Refused, Unreachable } from './server-port.ts'

export const PIECE_BYTES = 256 * 1024

export interface Picture {
  readonly sha256: string
  readonly content: Uint8Array<ArrayBuffer>
}

interface Received {
  readonly received: number
  readonly whole: boolean
}

interface AroundPieces {
  /** waits until nothing more urgent is under way */
  readonly giveWay: () => Promise<void>
  /** how many bytes the server has of it now */
  readonly tell: (received: number) => void
}

/** A piece may be answered 'out of place' when another device sends the same picture; but not for ever. */
const MOST_OUT_OF_PLACE = 50

/** Sends what the server has not of a picture, a piece at a time; whole and checked there when the promise resolves. @throws Unreachable | Refused */
export async function sendPicture({ sha256, content }: Picture, { giveWay, tell }: AroundPieces): Promise<void> {
  const address = `/api/attachments/${sha256}/pieces`
  let misses = 0
  let there = await askServer<Received>(address, { again: true })
  while (!there.whole) {
    tell(there.received)
    await giveWay()
    // all of it there and yet not whole: the server was stopped before it looked; the last piece again makes it look
    const from = there.received < content.length ? there.received : Math.max(0, content.length - PIECE_BYTES)
    const answer = await put(`${address}?from=${from}&of=${content.length}`, content.subarray(from, from + PIECE_BYTES))
    if (answer === 'out of place') misses += 1
    if (misses > MOST_OUT_OF_PLACE)
      throw new Unreachable('the server and this device do not agree how much has been sent')
    there = answer === 'out of place' ? await askServer<Received>(address, { again: true }) : answer
  }
  tell(content.length)
}

async function put(address: string, body: Uint8Array<ArrayBuffer>): Promise<Received | 'out of place'> {
  try {
    return await askServer<Received>(address, {
      method: 'PUT',
      headers: { 'content-type': 'application/octet-stream' },
      body,
      again: true,
    })
  } catch (error) {
    if (error instanceof Refused && error.issues[0]?.path === 'from') return 'out of place'
    throw error
  }
}
