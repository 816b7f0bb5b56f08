import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { linkEntries } from '@rillmark/casebook/chain/link.ts'
import { Admission } from '@rillmark/casebook/ledger/admission.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { type ServerPort, Unreachable } from './server-port.ts'

/** A server in memory that judges as the real one does, and a network that can be cut before or after it acts. */
export class FakeServer implements ServerPort {
  ledger = new MemoryLedger()
  /** 'before': requests never arrive; 'after': they arrive and the answer is lost */
  cut: 'no' | 'before' | 'after' = 'no'
  pushes = 0
  readonly page: number

  constructor({ page = 1000 } = {}) {
    this.page = page
  }

  readonly push: ServerPort['push'] = async (investigation, entries) => {
    this.#arrive()
    this.pushes += 1
    const admission = new Admission(
      investigation,
      entriesOf(await this.ledger.read(investigation, { after: 0, limit: 1e6 })),
    )
    const decisions = entries.map((entry) => admission.decide(entry))
    const fresh = decisions.flatMap((each) => (each.verdict === 'accepted' ? [each.entry] : []))
    await this.ledger.commit(
      linkEntries(await this.ledger.head(investigation), { entries: fresh, received: '2026-03-02T12:00:00.000Z' }),
    )
    this.#leave()
    const refused = decisions.flatMap((each) =>
      each.verdict === 'refused' ? [{ id: each.id, issues: each.issues }] : [],
    )
    return {
      accepted: fresh.map(({ id }, index) => ({ id, sequence: index + 1 })),
      refused,
      head: await this.ledger.head(investigation),
    }
  }

  readonly pull: ServerPort['pull'] = async (investigation, after) => {
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
