import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type { DatabaseSync } from 'node:sqlite'
import { inTransaction, openAccessDatabase } from './access-database.ts'
import { Challenges } from './challenges.ts'
import { type ConsignmentLink, ConsignmentLinks } from './consignment-links.ts'
import { Devices, type EnrolledDevice } from './devices.ts'
import { Invitations } from './invitations.ts'
import { Sessions } from './sessions.ts'

interface Parts {
  readonly database: DatabaseSync
  readonly devices: Devices
  readonly invitations: Invitations
  readonly sessions: Sessions
  readonly links: ConsignmentLinks
}

/** Who may come in, and how. Its file is made when something is first written: a server for one's own machine needs none. */
export class Access {
  readonly challenges: Challenges
  readonly now: () => number
  readonly #path: string
  #opened: Parts | undefined

  /** @param now milliseconds since 1970 */
  constructor(folder: string, now: () => number = Date.now) {
    this.#path = join(folder, 'access.sqlite')
    this.now = now
    this.challenges = new Challenges(now, (device) => this.device(device) !== undefined)
  }

  get devices(): Devices {
    return this.#parts().devices
  }

  get invitations(): Invitations {
    return this.#parts().invitations
  }

  get sessions(): Sessions {
    return this.#parts().sessions
  }

  get links(): ConsignmentLinks {
    return this.#parts().links
  }

  // Reading makes no file.

  device(id: string): EnrolledDevice | undefined {
    return this.#isEmpty ? undefined : this.devices.find(id)
  }

  deviceList(): EnrolledDevice[] {
    return this.#isEmpty ? [] : this.devices.list()
  }

  /** The consignment link behind a token, as long as it opens anything. */
  openLink(token: string): ConsignmentLink | undefined {
    return this.#isEmpty ? undefined : this.links.open(token)
  }

  linksOf(investigation: string): ConsignmentLink[] {
    return this.#isEmpty ? [] : this.links.of(investigation)
  }

  /** Runs changes all or nothing. */
  together<T>(work: () => T): T {
    return inTransaction(this.#parts().database, work)
  }

  close(): void {
    this.#opened?.database.close()
    this.#opened = undefined
  }

  get #isEmpty(): boolean {
    return this.#opened === undefined && !existsSync(this.#path)
  }

  #parts(): Parts {
    if (this.#opened !== undefined) return this.#opened
    const database = openAccessDatabase(this.#path)
    this.#opened = {
      database,
      devices: new Devices(database, this.now),
      invitations: new Invitations(database, this.now),
      sessions: new Sessions(database, this.now),
      links: new ConsignmentLinks(database, this.now),
    }
    return this.#opened
  }
}
