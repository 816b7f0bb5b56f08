import { createPrivateKey, X509Certificate as NodeCertificate } from 'node:crypto'
import { chmod, mkdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { X509Certificate } from '@peculiar/x509'
import { writeWhole } from '../folder/write-whole.ts'
import { type Issued, issueAuthority, issueServer, keysOf, privatePem } from './issue-certificate.ts'
import type { MachineNames } from './machine-names.ts'
import { isWithin, NAME_CONSTRAINTS } from './name-constraints.ts'

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
}

const DAY_MS = 86_400_000
const SERVER_RENEWED_DAYS = 30
const AUTHORITY_RENEWED_DAYS = 90
const FOLDER_MODE = 0o700
const FILE_MODE = 0o600

/**
 * The certificate kept in a folder: made when there is none, and again before its end or when the machine has got another name or address.
 * The authority behind it stays for years, so that devices need to be told once.
 */
export async function keptCertificate(
  folder: string,
  { own, nowMs }: { own: MachineNames; nowMs: number },
): Promise<KeptCertificate> {
  await mkdir(folder, { recursive: true, mode: FOLDER_MODE })
  await chmod(folder, FOLDER_MODE)
  const known = await readIssued(folder, 'authority')
  const authority = known !== undefined && isGoodAuthority(known, { own, nowMs }) ? known : undefined
  const vouching = authority ?? (await issueAuthority(own, nowMs))
  if (authority === undefined) await writeIssued(folder, 'authority', vouching)
  const shown = await readIssued(folder, 'server')
  const server =
    shown !== undefined && isGoodServer(shown, { own, nowMs, vouching })
      ? shown
      : await issueServer(own, { authority: vouching, nowMs })
  if (server !== shown) await writeIssued(folder, 'server', server)
  return {
    key: privatePem(server.keys),
    cert: `${server.certificate.toString('pem')}\n${vouching.certificate.toString('pem')}\n`,
    authority: new Uint8Array(vouching.certificate.rawData),
    fingerprints: { server: nodeOf(server).fingerprint256, authority: nodeOf(vouching).fingerprint256 },
    isNewAuthority: authority === undefined,
  }
}

interface Wanted {
  readonly own: MachineNames
  readonly nowMs: number
}

const lasts = ({ certificate }: Issued, until: number): boolean => certificate.notAfter.getTime() > until
const nodeOf = ({ certificate }: Issued): NodeCertificate => new NodeCertificate(Buffer.from(certificate.rawData))

function isGoodAuthority(authority: Issued, { own, nowMs }: Wanted): boolean {
  return (
    lasts(authority, nowMs + AUTHORITY_RENEWED_DAYS * DAY_MS) &&
    isWithin(authority.certificate.getExtension(NAME_CONSTRAINTS), own)
  )
}

function isGoodServer(server: Issued, { own, nowMs, vouching }: Wanted & { vouching: Issued }): boolean {
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
    const [pem, key] = await Promise.all([
      readFile(join(folder, `${name}.crt`), 'utf8'),
      readFile(join(folder, `${name}.key`), 'utf8'),
    ])
    const privateKey = createPrivateKey(key)
    const issued = { certificate: new X509Certificate(pem), keys: await keysOf(privateKey) }
    return nodeOf(issued).checkPrivateKey(privateKey) ? issued : undefined
  } catch {
    return undefined
  }
}

async function writeIssued(folder: string, name: string, { certificate, keys }: Issued): Promise<void> {
  await writeWhole(join(folder, `${name}.key`), { content: privatePem(keys), mode: FILE_MODE })
  await writeWhole(join(folder, `${name}.crt`), { content: `${certificate.toString('pem')}\n`, mode: FILE_MODE })
}
