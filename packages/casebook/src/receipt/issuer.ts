import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { Link } from '../chain/link.ts'
import type { DeviceKey } from '../devices/kinds.ts'
import { type CheckSignature, signedText, thumbprint } from '../devices/signed-text.ts'
import type { Receipt } from './receipt.ts'

/** The key of whoever gives a receipt, a server mostly. */
export interface Issuer {
  readonly publicKey: DeviceKey
  /** RFC 7638, hexadecimal */
  readonly thumbprint: string
  /** r||s in base64url over the UTF-8 of a text */
  readonly sign: (text: string) => string
}

/** The same receipt, saying when and by whose key it was given, and signed by that key. */
export function issuedBy(receipt: Receipt, { issuer, at }: { issuer: Issuer; at: string }): Receipt {
  const said = { ...receipt, issued: { at, key: issuer.publicKey } }
  return { ...said, signature: { key: issuer.thumbprint, value: issuer.sign(signedText(said)) } }
}

/** How a server with this key joined, where the record says so: it ties the key to the record. */
export function serverJoin(links: readonly Link[], key: string): Link | undefined {
  return links.find(
    ({ entry }) => entry.kind === 'device.joined' && entry.body.role === 'server' && thumbprint(entry.body.key) === key,
  )
}

/** What does not hold of who gave it. The text that was signed is that of the receipt as it was written. */
export function issuedIssues(
  { issued, signature }: Receipt,
  { written, checkSignature }: { written: unknown; checkSignature: CheckSignature },
): Issue[] {
  if (issued === undefined && signature === undefined) return []
  const told = (path: string, received: string) => [
    statedIssue(path, { expected: 'a signature by the key of who gave it', received }),
  ]
  if (issued === undefined) return told('issued', 'a signature without it')
  if (signature === undefined) return told('signature', 'none')
  if (signature.key !== thumbprint(issued.key)) return told('signature.key', 'the name of another key')
  const signed = { text: signedText(written as object), value: signature.value, key: issued.key }
  return checkSignature(signed) ? [] : told('signature', 'one that does not fit what the receipt says')
}
