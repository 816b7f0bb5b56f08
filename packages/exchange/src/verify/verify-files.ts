import type { Head } from '@rillmark/casebook/chain/link.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { jsonOf, textOf } from '../package/file-text.ts'
import type { Verdict } from './verdict.ts'
import { verifyPackage, type VerifyOptions } from './verify-package.ts'
import { verifyReceipt } from './verify-receipt.ts'

export interface GivenFile {
  readonly name: string
  readonly bytes: Uint8Array
}

export interface NamedVerdict {
  readonly name: string
  readonly verdict: Verdict
}

/**
 * Verifies the files somebody brings: packages and receipts in any number. Receipts are held against the packages of their investigation,
 * and against the receipt before them, by size. What is neither is named.
 */
export async function verifyFiles(
  files: readonly GivenFile[],
  options: Omit<VerifyOptions, 'receipts'> & { readonly head?: Head | undefined },
): Promise<NamedVerdict[]> {
  const packages = files.filter(({ bytes }) => !isReceipt(bytes))
  const receipts = files
    .filter(({ bytes }) => isReceipt(bytes))
    .map(({ name, bytes }) => ({ name, input: jsonOf(bytes), written: textOf(bytes) }))
  const checked = checkReceipts(receipts)
  const sound = checked.flatMap(({ receipt }) => receipt ?? [])
  const verdicts: NamedVerdict[] = []
  for (const { name, bytes } of packages)
    verdicts.push({ name, verdict: await verifyPackage(bytes, { ...options, receipts: sound }) })
  return [...verdicts, ...checked.map(({ name, verdict }) => ({ name, verdict }))]
}

/** The smallest tree first, so that each is held against the one before it. */
function checkReceipts(given: readonly { name: string; input: unknown; written: string | undefined }[]) {
  const done: { name: string; verdict: Verdict; receipt?: Receipt }[] = []
  const earlier = new Map<string, Receipt>()
  for (const { name, input, written } of given.toSorted((a, b) => sizeOf(a.input) - sizeOf(b.input))) {
    const alone = verifyReceipt(input, { checkSignature, written })
    const { receipt } = alone
    const before = receipt === undefined ? undefined : earlier.get(receipt.investigation)
    const result = before === undefined ? alone : verifyReceipt(input, { checkSignature, written, earlier: before })
    if (receipt !== undefined) earlier.set(receipt.investigation, receipt)
    done.push({ name, ...result })
  }
  return done
}

function sizeOf(input: unknown): number {
  const size = (input as { treeSize?: unknown } | undefined | null)?.treeSize
  return typeof size === 'number' ? size : 0
}

/** JSON begins with a brace; anything else is taken for an archive, which says what it is not. */
function isReceipt(bytes: Uint8Array): boolean {
  const text = new TextDecoder('latin1').decode(bytes.subarray(0, 64))
  return text
    .replace(/^\u00EF\u00BB\u00BF/, '')
    .trimStart()
    .startsWith('{')
}
