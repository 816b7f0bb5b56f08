import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises'
import { OWNER_ONLY_FOLDER } from '../folder/owner-only.ts'
import { dirname, join } from 'node:path'
import { type AttachmentType, mediaTypeOf } from '@rillmark/exchange/package/media-type.ts'
import { FewAtOnce } from '../folder/few-at-once.ts'
import { syncFolder } from '../folder/sync-folder.ts'
import { writeWhole } from '../folder/write-whole.ts'

const SHA256 = /^[0-9a-f]{64}$/
/** Each holds a whole picture in memory. */
const MOST_HASHED_AT_ONCE = 2

/** Photos and other attachments: files named after the SHA-256 of their bytes, so that one can't stand for another. */
export class Attachments {
  readonly #folder: string
  readonly #hashing = new FewAtOnce(MOST_HASHED_AT_ONCE)

  constructor(folder: string) {
    this.#folder = folder
  }

  /** The bytes, checked against their name, or undefined where there are none. */
  async read(sha256: string): Promise<{ bytes: Uint8Array; mediaType: AttachmentType } | undefined> {
    const bytes = await readFile(this.#path(sha256)).catch(absent)
    if (bytes === undefined) return undefined
    const mediaType = mediaTypeOf(bytes)
    if ((await digestOf(bytes)) !== sha256 || mediaType === undefined)
      throw new Error(`Cannot give attachment ${sha256} because the file was damaged`)
    return { bytes, mediaType }
  }

  /** Keeps the bytes; durable when the promise resolves. False when they are not what the name says. */
  async put(sha256: string, bytes: Uint8Array): Promise<boolean> {
    if ((await digestOf(bytes)) !== sha256) return false
    const path = this.#path(sha256)
    await mkdir(dirname(path), { recursive: true, mode: OWNER_ONLY_FOLDER })
    await writeWhole(path, { content: bytes })
    return true
  }

  /** How many bytes are kept under this name; undefined where there are none. */
  async size(sha256: string): Promise<number | undefined> {
    return (await stat(this.#path(sha256)).catch(absent))?.size
  }

  /**
   * Takes a file of this disk in, by moving it; durable when the promise resolves. What it holds is read back and hashed, beside the main
   * thread and only a few files at a time. False, and the file left where it is, when it does not hold what the name says.
   */
  async adopt(sha256: string, file: string): Promise<boolean> {
    if ((await this.#hashing.run(() => readFile(file).then(digestOf))) !== sha256) return false
    const path = this.#path(sha256)
    await mkdir(dirname(path), { recursive: true, mode: OWNER_ONLY_FOLDER })
    await syncFile(file)
    await rename(file, path)
    await syncFolder(dirname(path))
    return true
  }

  /** Throws away what a write that was killed left beside its file before then (milliseconds since 1970). */
  async sweep(oldestMs: number): Promise<void> {
    const names = (await readdir(this.#folder, { recursive: true }).catch(absent)) ?? []
    for (const name of names.filter((each) => each.endsWith('.part'))) {
      const path = join(this.#folder, name)
      const found = await stat(path).catch(absent)
      if (found !== undefined && found.mtimeMs < oldestMs) await rm(path, { force: true })
    }
  }

  #path(sha256: string): string {
    if (!SHA256.test(sha256)) throw new RangeError(`Cannot name an attachment because it is no SHA-256: got ${sha256}`)
    return join(this.#folder, sha256.slice(0, 2), sha256)
  }
}

/** By a thread of the pool: a picture of 20 MB would hold up everybody else for tens of milliseconds. */
async function digestOf(bytes: Uint8Array): Promise<string> {
  return Buffer.from(await crypto.subtle.digest('SHA-256', bytes as BufferSource)).toString('hex')
}

async function syncFile(path: string): Promise<void> {
  const file = await open(path, 'r+')
  await file.sync().finally(() => file.close())
}

function absent(error: NodeJS.ErrnoException): undefined {
  if (error.code === 'ENOENT') return undefined
  throw error
}
