import { clockAheadS } from '@rillmark/casebook/chain/clock.ts'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { linkEntries } from '@rillmark/casebook/chain/link.ts'
import { contestEntries } from '@rillmark/casebook/contests/write-contest.ts'
import { Admission } from '@rillmark/casebook/ledger/admission.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { type ServerPort, Unreachable } from './server-port.ts'

const RECEIVED = '2026-03-02T12:00:00.000Z'
const { key, signText } = testKey('the server')
const SERVER = { key, sign: signText, now: () => RECEIVED, newId: () => crypto.randomUUID() }

/** A server in memory that judges as the real one does, and a network that can be cut before or after it acts. */
export class FakeServer implements ServerPort {
  ledger = new MemoryLedger()
  /** 'before': requests never arrive; 'after': they arrive and the answer is lost */
  cut: 'no' | 'before' | 'after' = 'no'
  pushes = 0
  /** the clock of the device that pushes, where it says so */
  deviceNow: string | undefined
  readonly page: number

  constructor({ page = 1000 } = {}) {
    this.page = page
  }

  push: ServerPort['push'] = async (investigation, entries, told) => {
    this.#arrive()
    this.pushes += 1
    const links = await this.ledger.read(investigation, { after: 0, limit: 1e6 })
    const admission = new Admission(investigation, entriesOf(links), {
      writeContest: (account) => contestEntries(account, SERVER),
    })
    const latest = told?.latest ?? RECEIVED
    const aheadS = clockAheadS({ deviceNow: this.deviceNow, received: RECEIVED, latest })
    const decisions = entries.map((entry) => admission.decide(entry, { clockAheadS: aheadS }))
    const fresh = decisions.flatMap((each) =>
      each.verdict === 'accepted' ? [each.entry] : each.verdict === 'contested' ? each.entries : [],
    )
    const ahead = ({ device }: { device: string }) => (device === 'server' ? undefined : aheadS)
    const head = await this.ledger.head(investigation)
    await this.ledger.commit(linkEntries(head, { entries: fresh, received: RECEIVED, ahead }))
    this.#leave()
    const refused = decisions.flatMap((each) =>
      each.verdict === 'refused' ? [{ id: each.id, issues: each.issues }] : [],
    )
    const ids = decisions.flatMap((each) =>
      each.verdict === 'refused' ? [] : [each.verdict === 'accepted' ? each.entry.id : each.id],
    )
    const { contested } = admission.state.contests
    const places = ids.map((id) => contested.get(id)?.contested.id ?? id)
    const sequences = await this.ledger.sequencesOf(investigation, places)
    return {
      accepted: ids.map((id, index) => ({ id, sequence: sequences.get(places[index] ?? '') ?? 0 })),
      contested: ids.filter((id) => contested.has(id)).map((id) => ({ id, sequence: 0 })),
      refused,
      head: await this.ledger.head(investigation),
    }
  }

  pull: ServerPort['pull'] = async (investigation, after) => {
    this.#arrive()
    const links = await this.ledger.read(investigation, { after, limit: this.page })
    this.#leave()
    return { links, head: await this.ledger.head(investigation) }
  }

  #arrive(): void {
    if (this.cut === 'before') throw new Unreachable('no network')
  }

  #leave(): void {
    if (this.cut === 'after') throw new Unreachable('the answer was lost')
  }
}
