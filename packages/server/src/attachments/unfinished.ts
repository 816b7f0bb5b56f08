import { constants } from 'node:fs'
import { OWNER_ONLY_FOLDER } from '../folder/owner-only.ts'
import { type FileHandle, mkdir, open, readdir, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'

/** Pictures that came in part, each a file that only grows, named after the hash its bytes are to have. */
export class Unfinished {
  readonly #folder: string
  #bytes = 0

  constructor(folder: string) {
    this.#folder = folder
  }

  /** Of all unfinished pictures together, as of the last sweep and what came since. */
  get bytes(): number {
    return this.#bytes
  }

  path(sha256: string): string {
    return join(this.#folder, sha256)
  }

  async received(sha256: string): Promise<number> {
    return (await stat(this.path(sha256)).catch(absent))?.size ?? 0
  }

  /** Writes a piece where it belongs. What a full disk cut short is written over by the next try. */
  async add(sha256: string, { from, bytes }: { from: number; bytes: Uint8Array }): Promise<void> {
    const file = await this.#opened(sha256)
    try {
      for (let done = 0; done < bytes.length; )
        done += (await file.write(bytes, done, bytes.length - done, from + done)).bytesWritten
      this.#bytes += bytes.length
    } finally {
      await file.close()
    }
  }

  async #opened(sha256: string): Promise<FileHandle> {
    const opened = () => open(this.path(sha256), constants.O_WRONLY | constants.O_CREAT)
    const file = await opened().catch(absent)
    if (file !== undefined) return file
    await mkdir(this.#folder, { recursive: true, mode: OWNER_ONLY_FOLDER })
    return opened()
  }

  /** It is whole and has moved away, or is worth nothing: `bytes` no longer count. */
  async end(sha256: string, { bytes }: { bytes: number }): Promise<void> {
    await rm(this.path(sha256), { force: true })
    this.#bytes = Math.max(0, this.#bytes - bytes)
  }

  /** Throws away what nobody added to since then (milliseconds since 1970), and counts what is left. */
  async sweep(oldestMs: number): Promise<void> {
    let bytes = 0
    for (const name of (await readdir(this.#folder).catch(absent)) ?? []) {
      const found = await stat(this.path(name)).catch(absent)
      if (found === undefined) continue
      if (found.mtimeMs < oldestMs) await rm(this.path(name), { force: true })
      else bytes += found.size
    }
    this.#bytes = bytes
  }
}

function absent(error: NodeJS.ErrnoException): undefined {
  if (error.code === 'ENOENT') return undefined
  throw error
}
