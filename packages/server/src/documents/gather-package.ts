import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { attachmentsIn } from '@rillmark/exchange/package/attachments-in.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { packageReports } from '@rillmark/exchange/report/package-reports.ts'

/** Built with the app. */
const VERIFIER = fileURLToPath(new URL('../../../web/dist/verify.html', import.meta.url))

export interface Gathered {
  readonly bytes: Uint8Array
  readonly pictures: number
  readonly reports: number
  /** whether the page that verifies is inside: it is once the app was built */
  readonly verifier: boolean
}

/** The open package of a record with all that is at hand: pictures kept here, reports made again, the verifier. */
export async function gatherPackage(
  links: readonly Link[],
  attachment: (sha256: string) => Promise<Uint8Array | undefined>,
): Promise<Gathered> {
  const attachments = new Map<string, Uint8Array>()
  for (const sha256 of attachmentsIn(entriesOf(links))) {
    const bytes = await attachment(sha256)
    if (bytes !== undefined) attachments.set(sha256, bytes)
  }
  const reports = packageReports(links)
  const verifier = await readVerifier()
  return {
    bytes: writePackage(links, { attachments, reports, verifier }),
    pictures: attachments.size,
    reports: reports.size,
    verifier: verifier !== undefined,
  }
}

async function readVerifier(): Promise<Uint8Array | undefined> {
  try {
    return await readFile(VERIFIER)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
    throw error
  }
}
