import { mkdir, open, readdir, rm, stat } from 'node:fs/promises'
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

  /** Adds a piece at the end. What could be written of it in part (a full disk) is taken back. */
  async add(sha256: string, piece: Uint8Array): Promise<void> {
    await mkdir(this.#folder, { recursive: true })
    const file = await open(this.path(sha256), 'a')
    try {
      const { size } = await file.stat()
      await file.writeFile(piece).catch(async (error: unknown) => {
        await file.truncate(size)
        throw error
      })
      this.#bytes += piece.length
    } finally {
      await file.close()
    }
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
