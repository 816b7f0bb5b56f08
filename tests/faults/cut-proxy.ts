import { type AddressInfo, connect, createServer, type Socket } from 'node:net'
import type { Chance } from './seed.ts'

/** How many bytes a connection carries each way before it is cut; undefined: it is not. */
export interface Cut {
  readonly up: number | undefined
  readonly down: number | undefined
}

export interface CutProxy {
  readonly url: string
  /** `through`: nothing is cut; `cutting`: as planned; `away`: nobody is let in */
  mode: 'through' | 'cutting' | 'away'
  readonly cuts: () => number
  readonly close: () => Promise<void>
}

/** Every connection is cut in the end: at a byte of the first request, of the first answer, or of a later one of either. */
export function plannedCuts(chance: Chance, { most }: { most: number }): () => Cut {
  return () => {
    const at = chance.oneIn(2) ? chance.between(0, 2000) : chance.between(0, most)
    return chance.oneIn(2) ? { up: at, down: undefined } : { up: undefined, down: at }
  }
}

/** Stands between devices and a server and cuts connections at exact bytes: what came before goes on, what comes after is lost. */
export async function cutProxy({ target, plan }: { target: () => string; plan: () => Cut }): Promise<CutProxy> {
  const open = new Set<Socket>()
  let cuts = 0
  const proxy: { mode: CutProxy['mode'] } = { mode: 'through' }
  const server = createServer((near) => {
    if (proxy.mode === 'away') return near.destroy()
    const { hostname, port } = new URL(target())
    const far = connect(Number(port), hostname)
    const cut = proxy.mode === 'cutting' ? plan() : { up: undefined, down: undefined }
    const end = (): void => {
      near.destroy()
      far.destroy()
    }
    const onCut = (): void => {
      cuts += 1
      end()
    }
    for (const socket of [near, far]) {
      open.add(socket)
      socket.on('error', end).on('close', () => {
        open.delete(socket)
        end()
      })
    }
    carry({ from: near, to: far, bytes: cut.up, onCut })
    carry({ from: far, to: near, bytes: cut.down, onCut })
    return undefined
  })
  await new Promise<void>((resolve, reject) => server.once('error', reject).listen(0, '127.0.0.1', resolve))
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    get mode() {
      return proxy.mode
    },
    set mode(mode) {
      proxy.mode = mode
      // what is open was let in under the mode before
      for (const socket of open) socket.destroy()
    },
    cuts: () => cuts,
    close: () =>
      new Promise((resolve) => {
        for (const socket of open) socket.destroy()
        server.close(() => resolve())
      }),
  }
}

interface Way {
  readonly from: Socket
  readonly to: Socket
  readonly bytes: number | undefined
  readonly onCut: () => void
}

function carry({ from, to, bytes, onCut }: Way): void {
  let left = bytes ?? Number.POSITIVE_INFINITY
  from.on('data', (chunk: Buffer) => {
    if (chunk.length < left) {
      left -= chunk.length
      to.write(chunk)
      return
    }
    const last = chunk.subarray(0, left)
    left = 0
    // the last bytes must be on their way before the connection goes
    if (last.length === 0) onCut()
    else to.write(last, onCut)
  })
  from.on('end', () => to.end())
}
