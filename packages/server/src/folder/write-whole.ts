import { randomUUID } from 'node:crypto'
import { open, rename, rm } from 'node:fs/promises'
import { dirname } from 'node:path'
import { syncFolder } from './sync-folder.ts'

/**
 * Writes a file all or nothing: written beside, made durable, then put in place. What was there before stays until then, and nothing is
 * left beside it.
 *
 * @param mode permissions of the new file, as those of the one it takes the place of
 */
export async function writeWhole(
  path: string,
  { content, mode }: { content: string | Uint8Array; mode?: number | undefined },
): Promise<void> {
  const unfinished = `${path}.${randomUUID()}.part`
  try {
    const file = await open(unfinished, 'wx', mode)
    try {
      await file.writeFile(content)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(unfinished, path)
    await syncFolder(dirname(path))
  } finally {
    await rm(unfinished, { force: true })
  }
}
