import { createHash } from 'node:crypto'
import { mkdir, readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { type AttachmentType, mediaTypeOf } from '@rillmark/exchange/package/media-type.ts'
import { writeWhole } from '../folder/write-whole.ts'

const SHA256 = /^[0-9a-f]{64}$/

/** Photos and other attachments: files named after the SHA-256 of their bytes, so that one can't stand for another. */
export class Attachments {
  readonly #folder: string

  constructor(folder: string) {
    this.#folder = folder
  }

  /** The bytes, checked against their name, or undefined where there are none. */
  async read(sha256: string): Promise<{ bytes: Uint8Array; mediaType: AttachmentType } | undefined> {
    const bytes = await readFile(this.#path(sha256)).catch(absent)
    if (bytes === undefined) return undefined
    const mediaType = mediaTypeOf(bytes)
    if (digestOf(bytes) !== sha256 || mediaType === undefined)
      throw new Error(`Cannot give attachment ${sha256} because the file was damaged`)
    return { bytes, mediaType }
  }

  /** Keeps the bytes; durable when the promise resolves. False when they are not what the name says. */
  async put(sha256: string, bytes: Uint8Array): Promise<boolean> {
    if (digestOf(bytes) !== sha256) return false
    const path = this.#path(sha256)
    await mkdir(dirname(path), { recursive: true })
    await writeWhole(path, { content: bytes })
    return true
  }

  #path(sha256: string): string {
    if (!SHA256.test(sha256)) throw new RangeError(`Cannot name an attachment because it is no SHA-256: got ${sha256}`)
    return join(this.#folder, sha256.slice(0, 2), sha256)
  }
}

function digestOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex')
}

function absent(error: NodeJS.ErrnoException): undefined {
  if (error.code === 'ENOENT') return undefined
  throw error
}
