import { createPrivateKey, X509Certificate as NodeCertificate } from 'node:crypto'
import { chmod, mkdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { X509Certificate } from '@peculiar/x509'
import { writeWhole } from '../folder/write-whole.ts'
import { type Issued, issueAuthority, issueServer, keysOf, privatePem } from './issue-certificate.ts'
import type { MachineNames } from './machine-names.ts'
import { NAME_CONSTRAINTS, vouchedFor } from './name-constraints.ts'

/** What a server needs to speak HTTPS, and what people compare. */
export interface KeptCertificate {
  readonly key: string
  /** the server's own and its authority's, PEM */
  readonly cert: string
  /** the authority's, DER: for devices to trust */
  readonly authority: Uint8Array
  /** SHA-256 of both, as browsers show them */
  readonly fingerprints: { readonly server: string; readonly authority: string }
  /** whether devices that trusted the one before must trust a new one */
  readonly isNewAuthority: boolean
  /** when the authority ends, milliseconds since 1970 */
  readonly authorityEnds: number
  /** names and addresses of the machine that the authority may not vouch for: the certificate does not cover them */
  readonly leftOut: readonly string[]
}

const DAY_MS = 86_400_000
const SERVER_RENEWED_DAYS = 30
const FOLDER_MODE = 0o700
const FILE_MODE = 0o600

/**
 * The certificate kept in a folder: made when there is none, and again before its end or when the machine has got another name or address.
 * The authority behind it stays until it ends, so that devices need to be told once; what it may not vouch for is left out.
 *
 * @param newAuthority makes another one although devices trust the one there is
 */
export async function keptCertificate(
  folder: string,
  { own, nowMs, newAuthority = false }: { own: MachineNames; nowMs: number; newAuthority?: boolean },
): Promise<KeptCertificate> {
  await mkdir(folder, { recursive: true, mode: FOLDER_MODE })
  await chmod(folder, FOLDER_MODE)
  const known = newAuthority ? undefined : await readIssued(folder, 'authority')
  const authority = known !== undefined && lasts(known, nowMs) ? known : undefined
  const vouching = authority ?? (await issueAuthority(own, nowMs))
  if (authority === undefined) await writeIssued(folder, 'authority', vouching)
  await handOut(folder, vouching)
  const covered = vouchedFor(vouching.certificate.getExtension(NAME_CONSTRAINTS), own)
  const shown = await readIssued(folder, 'server')
  const server =
    shown !== undefined && isGoodServer(shown, { own: covered, nowMs, vouching })
      ? shown
      : await issueServer(covered, { authority: vouching, nowMs })
  if (server !== shown) await writeIssued(folder, 'server', server)
  const isCovered = new Set([...covered.names, ...covered.addresses])
  return {
    key: privatePem(server.keys),
    cert: `${server.certificate.toString('pem')}\n${vouching.certificate.toString('pem')}\n`,
    authority: new Uint8Array(vouching.certificate.rawData),
    fingerprints: { server: nodeOf(server).fingerprint256, authority: nodeOf(vouching).fingerprint256 },
    isNewAuthority: authority === undefined,
    authorityEnds: vouching.certificate.notAfter.getTime(),
    leftOut: [...own.names, ...own.addresses].filter((each) => !isCovered.has(each)),
  }
}

interface Wanted {
  readonly own: MachineNames
  readonly nowMs: number
  readonly vouching: Issued
}

const lasts = ({ certificate }: Issued, until: number): boolean => certificate.notAfter.getTime() > until
const nodeOf = ({ certificate }: Issued): NodeCertificate => new NodeCertificate(Buffer.from(certificate.rawData))

function isGoodServer(server: Issued, { own, nowMs, vouching }: Wanted): boolean {
  const certificate = nodeOf(server)
  return (
    lasts(server, nowMs + SERVER_RENEWED_DAYS * DAY_MS) &&
    certificate.verify(nodeOf(vouching).publicKey) &&
    own.names.every((name) => certificate.checkHost(name) !== undefined) &&
    own.addresses.every((address) => certificate.checkIP(address) !== undefined)
  )
}

/** A certificate and the key that fits it; undefined where one is missing, damaged or does not fit: then new ones are made. */
async function readIssued(folder: string, name: string): Promise<Issued | undefined> {
  try {
    const text = await readText(join(folder, `${name}.pem`), () => readApart(folder, name))
    const privateKey = createPrivateKey(block(text, 'PRIVATE KEY'))
    const issued = { certificate: new X509Certificate(block(text, 'CERTIFICATE')), keys: await keysOf(privateKey) }
    return nodeOf(issued).checkPrivateKey(privateKey) ? issued : undefined
  } catch {
    return undefined
  }
}

async function readText(path: string, otherwise: () => Promise<string>): Promise<string> {
  return readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'ENOENT') throw error
    return otherwise()
  })
}

/** As they were kept at first, in two files. */
async function readApart(folder: string, name: string): Promise<string> {
  const read = (ending: string) => readFile(join(folder, `${name}.${ending}`), 'utf8')
  return `${await read('key')}${await read('crt')}`
}

/** In one file, so that a kill leaves no key without its certificate. */
async function writeIssued(folder: string, name: string, { certificate, keys }: Issued): Promise<void> {
  const content = `${privatePem(keys)}${certificate.toString('pem')}\n`
  await writeWhole(join(folder, `${name}.pem`), { content, mode: FILE_MODE })
}

/** The authority's certificate without its key beside it, for devices and proxies to be given. */
async function handOut(folder: string, { certificate }: Issued): Promise<void> {
  const [path, content] = [join(folder, 'authority.crt'), `${certificate.toString('pem')}\n`]
  const there = await readFile(path, 'utf8').catch(() => undefined)
  if (there !== content) await writeWhole(path, { content, mode: FILE_MODE })
}

function block(text: string, label: string): string {
  const [begin, end] = [`-----BEGIN ${label}-----`, `-----END ${label}-----`]
  return text.slice(Math.max(0, text.indexOf(begin)), text.indexOf(end) + end.length)
}
