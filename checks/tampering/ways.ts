// The whole corpus as it is brought to a verifier: each way by its file, and the files somebody would hand over.
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { prettyJson } from '@rillmark/exchange/package/derived-files.ts'
import type { GivenFile } from '@rillmark/exchange/verify/verify-files.ts'
import { strToU8 } from 'fflate'
import type { PackageWay } from './package-way.ts'
import type { Attempt, ReceiptWay } from './receipt-way.ts'
import type { Way } from './way.ts'

const folder = fileURLToPath(new URL('.', import.meta.url))
const wayFiles = (subject: string): string[] =>
  readdirSync(`${folder}${subject}`).filter((name) => name.endsWith('.ts'))

export const SUBJECTS: readonly string[] = readdirSync(folder, { withFileTypes: true }).flatMap((each) =>
  each.isDirectory() ? [each.name] : [],
)

export type Named<W> = W & { readonly file: string }

async function waysIn<W>(subject: string): Promise<Named<W>[]> {
  return Promise.all(
    wayFiles(subject).map(async (name) => {
      const { way } = (await import(`${folder}${subject}/${name}`)) as { way: W }
      return { file: `${subject}/${name}`, ...way }
    }),
  )
}

export async function packageWays(): Promise<Named<PackageWay>[]> {
  const subjects = SUBJECTS.filter((subject) => subject !== 'record' && subject !== 'receipts')
  return (await Promise.all(subjects.map((subject) => waysIn<PackageWay>(subject)))).flat()
}

export const receiptWays = (): Promise<Named<ReceiptWay>[]> => waysIn<ReceiptWay>('receipts')

/** Those with a bare record. */
export const recordWays = (): Promise<Named<Way>[]> => waysIn<Way>('record')

export const howMany = (): number => SUBJECTS.reduce((sum, subject) => sum + wayFiles(subject).length, 0)

export function filesOf(attempt: Attempt): GivenFile[] {
  return [
    ...(attempt.package === undefined ? [] : [{ name: 'package.zip', bytes: attempt.package }]),
    ...(attempt.beside === undefined ? [] : [{ name: 'beside.json', bytes: receiptBytes(attempt.beside) }]),
    ...(attempt.receipt === undefined ? [] : [{ name: 'receipt.json', bytes: receiptBytes(attempt.receipt) }]),
  ]
}

/** A receipt given as text is taken as it is: the trick is in the writing. */
function receiptBytes(value: unknown): Uint8Array {
  return strToU8(typeof value === 'string' ? value : prettyJson(value))
}
