import type { Server as HttpServer } from 'node:http'
import { Server as HttpsServer } from 'node:https'
import { isIP } from 'node:net'
import { join } from 'node:path'
import { certificateNotices, changeNotices } from './certificate-notices.ts'
import { type KeptCertificate, keptCertificate } from './kept-certificate.ts'
import { type MachineNames, machineNames, thisMachine } from './machine-names.ts'

const HOUR_MS = 3_600_000

/** The certificate of a running server: looked at every hour, so that it neither ends nor lacks an address the machine got meanwhile. */
export class HttpsCertificate {
  #kept: KeptCertificate
  #timer: NodeJS.Timeout | undefined
  readonly #folder: string
  readonly #host: string
  readonly #log: (told: unknown) => void
  /** what was said already, at the start or since */
  readonly #told: Set<string>

  private constructor(given: { kept: KeptCertificate; folder: string; host: string; log: (told: unknown) => void }) {
    this.#kept = given.kept
    this.#folder = given.folder
    this.#host = given.host
    this.#log = given.log
    this.#told = new Set(certificateNotices(given.kept, Date.now()))
  }

  /** The one kept in a data folder, made when absent. */
  static async of(
    dataFolder: string,
    { host, log, newAuthority }: { host: string; log: (told: unknown) => void; newAuthority: boolean },
  ): Promise<HttpsCertificate> {
    const folder = join(dataFolder, 'certificate')
    const kept = await keptCertificate(folder, { own: namesWith(host), nowMs: Date.now(), newAuthority })
    return new HttpsCertificate({ kept, folder, host, log })
  }

  get kept(): KeptCertificate {
    return this.#kept
  }

  /** Keeps a server's certificate good for as long as it runs. */
  renewOn(server: HttpServer): void {
    this.#timer = setInterval(() => {
      this.renew(server).catch(this.#log)
    }, HOUR_MS)
    this.#timer.unref()
  }

  /** What changed is told at the terminal, once. */
  async renew(
    server: HttpServer,
    { nowMs = Date.now(), own = namesWith(this.#host) }: { nowMs?: number; own?: MachineNames } = {},
  ): Promise<void> {
    const before = this.#kept
    this.#kept = await keptCertificate(this.#folder, { own, nowMs })
    if (server instanceof HttpsServer) server.setSecureContext({ key: this.#kept.key, cert: this.#kept.cert })
    for (const notice of [...changeNotices(before, this.#kept), ...certificateNotices(this.#kept, nowMs)]) {
      if (this.#told.has(notice)) continue
      this.#told.add(notice)
      this.#log(notice)
    }
  }

  stop(): void {
    clearInterval(this.#timer)
  }
}

const ANY_ADDRESS = new Set(['0.0.0.0', '::'])

/** The machine's names and addresses, and the one it was told to answer at. */
function namesWith(host: string): MachineNames {
  const { names, addresses } = machineNames(thisMachine())
  if (ANY_ADDRESS.has(host)) return { names, addresses }
  return isIP(host) === 0
    ? { names: [...new Set([...names, host.toLowerCase()])], addresses }
    : { names, addresses: [...new Set([...addresses, host])] }
}
