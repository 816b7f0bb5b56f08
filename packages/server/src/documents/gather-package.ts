import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentsIn } from '@rillmark/exchange/package/attachments-in.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { ZIP_LIMITS, readZipDirectory } from '@rillmark/exchange/package/zip-directory.ts'
import { packageReports } from '@rillmark/exchange/report/package-reports.ts'

/** Built with the app. */
const VERIFIER = fileURLToPath(new URL('../../../web/dist/verify.html', import.meta.url))

export interface GatheredPackage {
  readonly ok: true
  readonly bytes: Uint8Array
  readonly pictures: number
  readonly reports: number
  /** whether the page that verifies is inside: it is once the app was built */
  readonly verifier: boolean
}

export type Gathered = GatheredPackage | { readonly ok: false; readonly issues: readonly Issue[] }

export interface Kept {
  /** the bytes of a picture, as far as it is kept here */
  readonly attachment: (sha256: string) => Promise<Uint8Array | undefined>
  /** leaves the pictures out: the package names them as missing */
  readonly withoutPictures?: boolean
}

/**
 * The open package of a record with all that is at hand: pictures kept here, reports made again, the verifier. What nobody could read again,
 * because it is beyond the limits of reading, is not written.
 */
export async function gatherPackage(
  links: readonly Link[],
  { attachment, withoutPictures = false }: Kept,
): Promise<Gathered> {
  const attachments = new Map<string, Uint8Array>()
  let pictureBytes = 0
  for (const sha256 of withoutPictures ? [] : attachmentsIn(entriesOf(links))) {
    const bytes = await attachment(sha256)
    if (bytes === undefined) continue
    pictureBytes += bytes.length
    // before more of them fill the memory
    if (pictureBytes > ZIP_LIMITS.archiveBytes) return tooLarge('pictures')
    attachments.set(sha256, bytes)
  }
  const reports = packageReports(links)
  const verifier = await readVerifier()
  const bytes = writePackage(links, { attachments, reports, verifier })
  if (bytes.length > ZIP_LIMITS.archiveBytes) return tooLarge('package')
  const readable = readZipDirectory(bytes)
  if (!readable.ok) return readable
  return { ok: true, bytes, pictures: attachments.size, reports: reports.size, verifier: verifier !== undefined }
}

const BYTES_PER_MB = 1024 * 1024

function tooLarge(path: string): Gathered {
  const expected = `at most ${ZIP_LIMITS.archiveBytes / BYTES_PER_MB} MB in one package`
  const received =
    'more: take it without pictures, which lie in `attachments` of the data folder, named by their hashes'
  return { ok: false, issues: [statedIssue(path, { expected, received })] }
}

async function readVerifier(): Promise<Uint8Array | undefined> {
  try {
    return await readFile(VERIFIER)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
    throw error
  }
}
