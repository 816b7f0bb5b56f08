import { open } from 'node:fs/promises'

/** Makes names that were put into a folder durable. Where the system can't (Windows), it keeps its folders in order itself. */
export async function syncFolder(path: string): Promise<void> {
  const folder = await open(path).catch(() => undefined)
  if (folder === undefined) return
  try {
    await folder.sync()
  } catch {
    // a folder that can't be synchronised is no failure of the file in it
  } finally {
    await folder.close()
  }
}
