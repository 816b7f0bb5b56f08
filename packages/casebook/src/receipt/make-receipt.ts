import type { Link } from '../chain/link.ts'
import type { MerkleTree } from '../chain/merkle.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { type Issuer, issuedBy, serverJoin } from './issuer.ts'
import { linksNaming } from './links-naming.ts'
import { type ProvedLink, type Receipt, RECEIPT_FORMAT } from './receipt.ts'
import { recordTree } from './record-tree.ts'

export interface ReceiptRequest {
  /** the label to prove */
  readonly sample: string
  /** an earlier receipt that this one continues */
  readonly since?: Pick<Receipt, 'investigation' | 'treeSize' | 'rootHash'> | undefined
  /** who gives it, and when: the receipt is signed */
  readonly given?: { readonly issuer: Issuer; readonly at: string } | undefined
}

type Made = { readonly ok: true; readonly receipt: Receipt } | { readonly ok: false; readonly issues: Issue[] }

/** A receipt of everything the record says of one sample, as the record stands. */
export function makeReceipt(links: readonly Link[], { sample, since, given }: ReceiptRequest): Made {
  const named = linksNaming(links, sample)
  const investigation = links[0]?.entry.investigation
  if (investigation === undefined || named.length === 0) {
    const told = { expected: 'the label of a sample this record names', received: sample }
    return { ok: false, issues: [issue('sample', told)] }
  }
  const tree = recordTree(links)
  const issues = since === undefined ? [] : continuedIssues(since, { investigation, tree })
  if (issues.length > 0) return { ok: false, issues }
  const proved = (link: Link): ProvedLink => ({ leaf: link, path: tree.inclusionProof(link.sequence - 1) })
  const receipt: Receipt = {
    format: RECEIPT_FORMAT,
    investigation,
    sample,
    treeSize: tree.size,
    rootHash: tree.root(),
    proofs: named.map(proved),
    devices: joinsOf(links, { signed: named, issuer: given?.issuer }).map(proved),
    ...(since === undefined ? {} : { since: sinceOf(since, tree) }),
  }
  return { ok: true, receipt: given === undefined ? receipt : issuedBy(receipt, given) }
}

/** How the devices that signed some links joined, and the server that gives the receipt. */
function joinsOf(
  links: readonly Link[],
  { signed, issuer }: { signed: readonly Link[]; issuer: Issuer | undefined },
): Link[] {
  const server = issuer === undefined ? undefined : serverJoin(links, issuer.thumbprint)
  const devices = new Set(signed.flatMap(({ entry }) => (entry.signature === undefined ? [] : [entry.device])))
  return links.filter((link) => {
    if (link.entry.kind !== 'device.joined') return false
    return devices.delete(link.entry.device) || link === server
  })
}

type Earlier = NonNullable<ReceiptRequest['since']>

function sinceOf({ treeSize, rootHash }: Earlier, tree: MerkleTree): NonNullable<Receipt['since']> {
  return { treeSize, rootHash, path: tree.consistencyProof(treeSize) }
}

function continuedIssues(
  since: Earlier,
  { investigation, tree }: { investigation: string; tree: MerkleTree },
): Issue[] {
  if (since.investigation !== investigation)
    return [issue('since.investigation', { expected: investigation, received: since.investigation })]
  if (since.treeSize > tree.size)
    return [
      issue('since.treeSize', { expected: `at most ${tree.size}, as the record has now`, received: since.treeSize }),
    ]
  const root = tree.root(since.treeSize)
  if (root === since.rootHash) return []
  return [issue('since.rootHash', { expected: `${root} at ${since.treeSize} entries`, received: since.rootHash })]
}
