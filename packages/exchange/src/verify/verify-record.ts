import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import type { MerkleTree } from '@rillmark/casebook/chain/merkle.ts'
import { verifyChain, type Verdict as ChainVerdict } from '@rillmark/casebook/chain/verify.ts'
import { leftOut, receiptAgainstRecord } from '@rillmark/casebook/receipt/check-receipt.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { walkDevices } from './check-devices.ts'
import { failedJobs } from './signature-jobs.ts'
import type { Finding } from './verdict.ts'
import { foundIn } from './verdict.ts'
import type { VerifyOptions } from './verify-package.ts'

export interface RecordVerdict {
  readonly chain: ChainVerdict
  /** what does not hold beside the chain: signatures, devices, receipts */
  readonly findings: readonly Finding[]
}

/** Verifies a record as it is kept, without a package around it. */
export async function verifyRecordKept(
  links: readonly Link[],
  { investigation, options }: { investigation: string; options: VerifyOptions & { head?: Head | undefined } },
): Promise<RecordVerdict> {
  const chain = verifyChain(links, { investigation, head: options.head })
  if (!chain.sound) return { chain, findings: [] }
  const { findings, jobs, counts } = walkDevices(links, investigation)
  const failed = await failedJobs(jobs, { check: options.checkSignature, told: () => undefined })
  const receipts = options.receipts ?? []
  const tree = receipts.length > 0 ? recordTree(links) : undefined
  return {
    chain: { ...chain, signed: counts.signed, unsigned: counts.unsigned },
    findings: [
      ...findings,
      ...foundIn('signatures', failed.map(failedIssue)),
      ...(tree === undefined ? [] : receiptFindings(receipts, { investigation, tree, links })),
    ],
  }
}

interface Held {
  readonly investigation: string
  readonly tree: MerkleTree
  readonly links: readonly Link[]
}

/** What of receipts does not hold against a record, in a package or kept; a receipt gets one verdict of both. */
export function receiptFindings(receipts: readonly Receipt[], held: Held): Finding[] {
  return foundIn(
    'receipt',
    receipts.flatMap((receipt) => {
      const issues = receiptAgainstRecord(receipt, held)
      return issues.length > 0 ? issues : leftOut(receipt, held.links)
    }),
  )
}

export function failedIssue({ sequence, device }: { sequence: number; device: string }): Issue {
  const received = `its signature by ${device} does not fit what it says`
  return statedIssue(`entry ${sequence}`, { expected: 'a signature that holds', received })
}
