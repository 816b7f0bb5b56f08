import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, issueLine, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { type Link, linkHash } from '../chain/link.ts'
import { leafHash, type MerkleTree } from '../chain/merkle.ts'
import { verifyConsistency, verifyInclusion } from '../chain/merkle-proof.ts'
import type { DeviceKey } from '../devices/kinds.ts'
import { signatureFault } from '../devices/signature-fault.ts'
import type { CheckSignature } from '../devices/signed-text.ts'
import { parseEntry } from '../entry/parse-entry.ts'
import { issuedIssues } from './issuer.ts'
import { linksNaming, names } from './links-naming.ts'
import { type ProvedLink, type Receipt, receiptSchema } from './receipt.ts'
import { leafData } from './record-tree.ts'

type Checked =
  | { readonly ok: true; readonly receipt: Receipt }
  | { readonly ok: false; readonly receipt?: Receipt; readonly issues: Issue[] }

/** Whether a receipt holds in itself: every link whole, in its place in the tree, signed by a device that joined there. */
export function checkReceipt(input: unknown, checkSignature: CheckSignature): Checked {
  const parsed = parseWith(receiptSchema, input)
  if (!parsed.ok) return { ok: false, issues: parsed.issues }
  const receipt = parsed.value
  const issues = [
    ...(['devices', 'proofs'] as const).flatMap((list) => listIssues(receipt, list)),
    ...receipt.proofs.flatMap((proved) => namingIssues(proved, receipt)),
    ...sinceIssues(receipt),
    ...issuedIssues(receipt, { written: input, checkSignature }),
  ]
  const all = issues.length > 0 ? issues : signatureIssues(receipt, checkSignature)
  return all.length > 0 ? { ok: false, receipt, issues: all } : { ok: true, receipt }
}

/** Whether the record a tree was made of still holds what the receipt says, unchanged and in its place. */
export function receiptAgainstRecord(
  receipt: Receipt,
  { investigation, tree }: { investigation: string; tree: MerkleTree },
): Issue[] {
  const { treeSize, rootHash } = receipt
  if (receipt.investigation !== investigation)
    return [statedIssue('receipt', { expected: `a receipt of ${investigation}`, received: receipt.investigation })]
  if (treeSize > tree.size) {
    const received = `a record of ${tree.size}: it was cut short, or is an older copy`
    return [statedIssue('receipt', { expected: `at least the ${treeSize} entries of the receipt`, received })]
  }
  if (tree.root(treeSize) === rootHash) return []
  const received = `${tree.root(treeSize)}: an entry up to ${treeSize} was altered, dropped, moved or put in`
  return [statedIssue('receipt', { expected: `root ${rootHash} after ${treeSize} entries`, received })]
}

/** Entries of the record that name the sample, up to the end of the receipt, and that it leaves out. */
export function leftOut({ sample, treeSize, proofs }: Receipt, links: readonly Link[]): Issue[] {
  if (sample === undefined) return []
  const proved = new Set(proofs.map(({ leaf }) => leaf.sequence))
  return linksNaming(links.slice(0, treeSize), sample)
    .filter(({ sequence }) => !proved.has(sequence))
    .map(({ sequence }) =>
      statedIssue(`receipt entry ${sequence}`, {
        expected: `every entry that names ${sample}`,
        received: 'it left out',
      }),
    )
}

/** Whether a later receipt shows that its record continues that of an earlier one. */
export function receiptContinues(earlier: Receipt, later: Receipt): Issue[] {
  if (earlier.investigation !== later.investigation)
    return [
      statedIssue('investigation', {
        expected: `a receipt of ${earlier.investigation}`,
        received: later.investigation,
      }),
    ]
  const at = { size: later.treeSize, root: later.rootHash }
  const from = { size: earlier.treeSize, root: earlier.rootHash }
  if (at.size < from.size)
    return [
      statedIssue('treeSize', { expected: `at least ${from.size}, as in the earlier receipt`, received: at.size }),
    ]
  if (at.size === from.size)
    return at.root === from.root
      ? []
      : [
          statedIssue('rootHash', {
            expected: `${from.root}, as the other receipt of ${from.size} entries`,
            received: at.root,
          }),
        ]
  const { since } = later
  if (since?.treeSize !== from.size || since.rootHash !== from.root) {
    const expected = `a later receipt made since ${from.size} entries with root ${from.root}`
    const received =
      since === undefined ? 'one that names no earlier one' : `one since ${since.treeSize} with root ${since.rootHash}`
    return [statedIssue('since', { expected, received })]
  }
  return sinceIssues(later)
}

function listIssues(receipt: Receipt, list: 'devices' | 'proofs'): Issue[] {
  const found = receipt[list].flatMap((proved, index) => linkIssues(proved, { receipt, path: `${list}.${index}` }))
  const order = receipt[list].map(({ leaf }) => leaf.sequence)
  const sorted = order.every((sequence, index) => index === 0 || sequence > (order[index - 1] ?? 0))
  return sorted
    ? found
    : [...found, statedIssue(list, { expected: 'links in order, each once', received: order.join(', ') })]
}

function linkIssues({ leaf, path }: ProvedLink, { receipt, path: at }: { receipt: Receipt; path: string }): Issue[] {
  const where = `${at} (entry ${leaf.sequence})`
  const entry = parseEntry(leaf.entry)
  if (!entry.ok) return [statedIssue(where, { expected: 'an entry', received: entry.issues.map(issueLine).join('; ') })]
  if (entry.entry.investigation !== receipt.investigation)
    return [
      statedIssue(where, { expected: `an entry of ${receipt.investigation}`, received: entry.entry.investigation }),
    ]
  const link = leaf as Link
  const hashed = hashesOf(link)
  if (hashed?.link !== leaf.hash)
    return [statedIssue(where, { expected: 'content that matches its hash', received: 'other content' })]
  const { treeSize: size, rootHash: root } = receipt
  if (verifyInclusion({ index: leaf.sequence - 1, size, leaf: hashed.leaf, path, root })) return []
  const received = `a path of ${path.length} hashes that leads elsewhere`
  return [statedIssue(where, { expected: `a path to root ${root} of ${size} entries`, received })]
}

/** Undefined for content that has no canonical JSON. */
function hashesOf(link: Link): { link: string; leaf: string } | undefined {
  try {
    return { link: linkHash(link), leaf: leafHash(leafData(link)) }
  } catch {
    return undefined
  }
}

/** A link that amends or withdraws says nothing of the label itself; it must then correct one that does. */
function namingIssues({ leaf }: ProvedLink, { sample, proofs }: Receipt): Issue[] {
  if (sample === undefined) return []
  const { entry } = leaf as Link
  const corrected = entry.corrects?.entry
  const named = names(entry.body, sample) || proofs.some((each) => (each.leaf as Link).entry.id === corrected)
  if (named) return []
  return [statedIssue(`entry ${leaf.sequence}`, { expected: `an entry that names ${sample}`, received: 'another one' })]
}

function sinceIssues({ since, treeSize, rootHash }: Receipt): Issue[] {
  if (since === undefined) return []
  const earlier = { size: since.treeSize, root: since.rootHash }
  if (verifyConsistency({ earlier, later: { size: treeSize, root: rootHash }, path: since.path })) return []
  const expected = `a proof that the first ${since.treeSize} entries are those of the earlier receipt`
  return [statedIssue('since', { expected, received: 'hashes that lead elsewhere' })]
}

function signatureIssues({ proofs, devices }: Receipt, checkSignature: CheckSignature): Issue[] {
  const keys = new Map<string, DeviceKey>()
  return [...devices, ...proofs].flatMap((proved) => {
    const { entry } = proved.leaf as Link
    const where = `entry ${proved.leaf.sequence}`
    if (devices.includes(proved) && entry.kind !== 'device.joined')
      return [statedIssue(where, { expected: 'how a device joined', received: entry.kind })]
    const fault = signatureFault(entry, { checkSignature, joinedKey: keys.get(entry.device) })
    if (entry.kind === 'device.joined' && !keys.has(entry.device)) keys.set(entry.device, entry.body.key)
    return fault === undefined ? [] : [statedIssue(where, { expected: 'a signature that holds', received: fault })]
  })
}
