import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type ServerPort, Unreachable } from '../../packages/web/src/sync/server-port.ts'
import { vi } from 'vitest'
import { unaccounted } from './accounted-for.ts'
import { InjectedServer } from './injected-server.ts'
import { OfflineDevice } from './offline-device.ts'
import { wrongTimes } from './wrong-times.ts'

/** Where an exchange ends that does not run to its end: which request it was, and whether it got there. */
export interface Trouble {
  readonly at: number
  readonly way: 'lost on the way' | 'answer lost' | 'page killed before' | 'page killed after'
}

/** The page was killed in the middle: what it held in memory is gone, what it had on disk is there. */
class Killed extends Error {}

const HOUR_MS = 3_600_000
const MINUTE_MS = 60_000

/** Some devices and a server, all of their own code, and a network and a clock that the test moves. */
export class SyncWorld {
  readonly investigation = 'faults-model'
  readonly server = new InjectedServer()
  readonly devices: OfflineDevice[]
  readonly #sent: Entry[][] = []
  /** by id: the setting of its device's clock by which an entry first came to the server */
  readonly #cameBy = new Map<string, number>()
  /** entries whose times could be held against the world's clock */
  timed = 0
  #now = Date.parse('2026-03-04T08:00:00.000Z')
  #count = 0

  constructor(devices: number) {
    const now = (): number => this.#pass(MINUTE_MS)
    this.devices = Array.from(
      { length: devices },
      (_, n) => new OfflineDevice({ name: `phone-${n}`, investigation: this.investigation, now }),
    )
  }

  async begin(): Promise<void> {
    vi.setSystemTime(this.#now)
    await this.server.reopen()
    for (const device of this.devices) await device.join()
  }

  device(n: number): OfflineDevice {
    const device = this.devices[n % this.devices.length]
    if (device === undefined) throw new RangeError('no such device')
    return device
  }

  text(): string {
    return `written ${(this.#count += 1)}`
  }

  passHours(hours: number): void {
    this.#pass(hours * HOUR_MS)
  }

  /** The server's clock is the world's; its tests fake `Date` and nothing else. */
  #pass(ms: number): number {
    this.#now += ms
    vi.setSystemTime(this.#now)
    return this.#now
  }

  /** One exchange of a device, perhaps with trouble in it. */
  async sync(n: number, trouble?: Trouble): Promise<void> {
    try {
      await this.device(n).sync(this.#port(this.device(n), trouble))
    } catch (error) {
      if (!(error instanceof Killed)) throw error
    }
  }

  /** Something a device sent before arrives once more, late, and whole batches out of their order. */
  async replay(): Promise<void> {
    for (const entries of this.#sent.slice(-3).toReversed()) await this.server.push(this.investigation, { entries })
  }

  /** Everybody is back and the network holds: what is wrong then, in words. */
  async settled(): Promise<string[]> {
    const faults: string[] = []
    for (const device of [...this.devices, ...this.devices]) {
      const outcome = await device.sync(this.#port(device, undefined))
      if (outcome.kind !== 'done') faults.push(`${device.name}: ${outcome.kind}, ${outcome.reason}`)
    }
    const record = await this.server.record(this.investigation)
    faults.push(...(await unaccounted(this.investigation, { record, devices: this.devices })))
    const times = await wrongTimes(this.investigation, { record, devices: this.devices, cameBy: this.#cameBy })
    this.timed = times.looked
    return [...faults, ...times.wrong, ...this.server.failures.map(String)]
  }

  #port(device: OfflineDevice, trouble: Trouble | undefined): ServerPort {
    let requests = 0
    const through = async <T>(act: () => Promise<T>): Promise<T> => {
      requests += 1
      const way = trouble?.at === requests ? trouble.way : undefined
      if (way === 'lost on the way') throw new Unreachable(way)
      if (way === 'page killed before') throw new Killed(way)
      const answer = await act()
      if (way === 'answer lost') throw new Unreachable(way)
      if (way === 'page killed after') throw new Killed(way)
      return answer
    }
    return {
      push: (id, entries, told) =>
        through(() => {
          this.#sent.push([...entries])
          for (const entry of entries) if (!this.#cameBy.has(entry.id)) this.#cameBy.set(entry.id, device.clockSettings)
          const deviceNow = new Date(this.#now + device.clockAheadMs).toISOString()
          return this.server.push(id, { entries, deviceNow, ...told })
        }),
      pull: (id, after) => through(() => this.server.pull(id, after)),
    }
  }
}
