import { existsSync } from 'node:fs'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Records } from './records.ts'

/** Writes entries of the example, in order; resolves when they are stored. */
export type AppendDemo = (entries: readonly Entry[]) => Promise<void>

const SCRIPT = new URL('../../../../demo/build.ts', import.meta.url)
const BATCH = 500

/** Loads the worked example, and says which investigation it is; loading it again changes nothing. */
export async function loadDemo(records: Records): Promise<{ id: string } | undefined> {
  if (!existsSync(SCRIPT)) return undefined
  const { buildDemo } = (await import(SCRIPT.href)) as {
    buildDemo?: (append: AppendDemo, told: { today: string }) => Promise<unknown>
  }
  if (buildDemo === undefined) return undefined
  let id: string | undefined
  const today = new Date().toISOString().slice(0, 10)
  const append: AppendDemo = async (entries) => {
    for (let at = 0; at < entries.length; at += BATCH) {
      const batch = entries.slice(at, at + BATCH)
      id ??= batch[0]?.investigation
      const { refused } = await records.append(id ?? '', batch)
      const [first] = refused
      if (first !== undefined)
        throw new Error(`Cannot load the worked example because an entry was refused: got ${JSON.stringify(first)}`)
    }
  }
  await buildDemo(append, { today })
  return id === undefined ? undefined : { id }
}
