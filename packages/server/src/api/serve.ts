import { fileURLToPath } from 'node:url'
import { Access } from '../access/access.ts'
import type { Front, Proxy } from '../access/front.ts'
import { TERMINAL } from '../access/invitations.ts'
import { recordRevocationsLeft } from '../access/record-revocation.ts'
import type { HttpsCertificate } from '../certificate/https-certificate.ts'
import { outsideAddresses, thisMachine } from '../certificate/machine-names.ts'
import { openServerKey } from '../devices/server-key.ts'
import { openSoundData } from '../data/open-data.ts'
import { loadDemo } from '../records/demo.ts'
import { buildApp } from './app.ts'

export interface ServeOptions {
  readonly dataFolder: string
  readonly host: string
  /** tried first; when it is taken, the next free one */
  readonly port: number
  readonly demo: boolean
  /** the proxy in front, where there is one: then nobody comes in without being enrolled, wherever the server listens */
  readonly proxy?: Proxy
  /** plain HTTP between that proxy and here */
  readonly plainHttp?: boolean
  /** invites a lead even where there is one */
  readonly inviteLead?: boolean
  /** makes another authority although devices trust the one there is */
  readonly newAuthority?: boolean
  readonly log: (error: unknown) => void
}

export interface Serving {
  readonly url: string
  readonly port: number
  /** the worked example, when it was asked for and is there; or whose name is taken by another investigation */
  readonly demo: { readonly id: string } | { readonly taken: string } | undefined
  /** its certificate, where it made one */
  readonly certificate: HttpsCertificate | undefined
  /** the thumbprint of the key it signs with, where others are served */
  readonly keyThumbprint: string | undefined
  /** for the first lead, who finds nobody to be invited by */
  readonly invitation: { readonly url: string; readonly expires: number } | undefined
  readonly close: () => Promise<void>
}

const APP_FOLDER = fileURLToPath(new URL('../../../web/dist', import.meta.url))
const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1'])
const ANY_ADDRESS = new Set(['0.0.0.0', '::'])
const PORTS_TRIED = 50
const INVITATION_MINUTES = 60

/** Serves a data folder until it is closed: to its own machine openly, to others over HTTPS and to enrolled devices only. */
export async function serve(options: ServeOptions): Promise<Serving> {
  const { dataFolder, host, port, demo, proxy, newAuthority = false, log } = options
  const isOpen = LOOPBACK.has(host) && proxy === undefined
  const data = openSoundData(dataFolder)
  const access = new Access(data.folder)
  const close = async () => {
    access.close()
    await data.ledger.close()
  }
  try {
    const certificate =
      isOpen || options.plainHttp === true ? undefined : await certificateOf(data.folder, { newAuthority, host, log })
    const front: Front = isOpen ? { kind: 'open' } : closedFront({ certificate, proxy })
    const tls = certificate === undefined ? {} : { tls: certificate.kept }
    const app = await buildApp({ data, appFolder: APP_FOLDER, loopbackOnly: isOpen, front, ...tls, access, log })
    try {
      const key = () => openServerKey(data.folder)
      if (!isOpen) await recordRevocationsLeft({ access, records: data.records, key, log })
      const loaded = demo ? await loadDemo(data.records) : undefined
      const taken = await listen(app, { host, port })
      certificate?.renewOn(app.server)
      const url = proxy?.origin ?? `${certificate === undefined ? 'http' : 'https'}://${typedHost(host)}:${taken}`
      const invitation = isOpen ? undefined : firstInvitation(access, { url, anyway: options.inviteLead === true })
      const end = async () => {
        certificate?.stop()
        await app.close()
        await close()
      }
      const keyThumbprint = isOpen ? undefined : key().thumbprint
      return { url, port: taken, demo: loaded, certificate, keyThumbprint, invitation, close: end }
    } catch (error) {
      await app.close()
      throw error
    }
  } catch (error) {
    await close()
    throw error
  }
}

/** Loaded where it is needed only: the server of one's own machine starts without. */
async function certificateOf(
  folder: string,
  given: { host: string; log: (told: unknown) => void; newAuthority: boolean },
): Promise<HttpsCertificate> {
  const loaded = await import('../certificate/https-certificate.ts')
  return loaded.HttpsCertificate.of(folder, given)
}

function closedFront(given: { certificate: HttpsCertificate | undefined; proxy: Proxy | undefined }): Front {
  const { certificate, proxy } = given
  return {
    kind: 'closed',
    ...(certificate === undefined ? {} : { authority: () => certificate.kept.authority }),
    ...(proxy === undefined ? {} : { proxy }),
  }
}

/** The address others can type: of a server that listens at every one, the first that leads here from outside. */
function typedHost(host: string): string {
  const typed = ANY_ADDRESS.has(host) ? (outsideAddresses(thisMachine())[0] ?? 'localhost') : host
  return typed.includes(':') ? `[${typed}]` : typed
}

function firstInvitation(access: Access, { url, anyway }: { url: string; anyway: boolean }): Serving['invitation'] {
  if (access.devices.hasLead() && !anyway) return undefined
  const { token, expires } = access.invitations.make({ role: 'lead', minutes: INVITATION_MINUTES, by: TERMINAL })
  return { url: `${url}/join#${token}`, expires }
}

type App = Awaited<ReturnType<typeof buildApp>>

async function listen(app: App, { host, port }: { host: string; port: number }): Promise<number> {
  for (let tried = port; ; tried += 1) {
    try {
      await app.listen({ host, port: tried })
      const address = app.server.address()
      return typeof address === 'object' && address !== null ? address.port : tried
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (code !== 'EADDRINUSE' || tried >= port + PORTS_TRIED || tried >= 65_535) throw error
    }
  }
}
