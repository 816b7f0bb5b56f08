import type { Server as HttpServer } from 'node:http'
import { Server as HttpsServer } from 'node:https'
import { isIP } from 'node:net'
import { join } from 'node:path'
import { type KeptCertificate, keptCertificate } from './kept-certificate.ts'
import { type MachineNames, machineNames, thisMachine } from './machine-names.ts'

const HOUR_MS = 3_600_000

/** The certificate of a running server: looked at every hour, so that it neither ends nor lacks an address the machine got meanwhile. */
export class HttpsCertificate {
  #kept: KeptCertificate
  #timer: NodeJS.Timeout | undefined
  readonly #folder: string
  readonly #host: string
  readonly #log: (error: unknown) => void

  private constructor(given: { kept: KeptCertificate; folder: string; host: string; log: (error: unknown) => void }) {
    this.#kept = given.kept
    this.#folder = given.folder
    this.#host = given.host
    this.#log = given.log
  }

  /** The one kept in a data folder, made when absent. */
  static async of(
    dataFolder: string,
    { host, log }: { host: string; log: (error: unknown) => void },
  ): Promise<HttpsCertificate> {
    const folder = join(dataFolder, 'certificate')
    const kept = await keptCertificate(folder, { own: namesWith(host), nowMs: Date.now() })
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

  async renew(server: HttpServer, nowMs = Date.now()): Promise<void> {
    this.#kept = await keptCertificate(this.#folder, { own: namesWith(this.#host), nowMs })
    if (server instanceof HttpsServer) server.setSecureContext({ key: this.#kept.key, cert: this.#kept.cert })
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
