import { existsSync } from 'node:fs'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Records } from './records.ts'

/** Takes entries of the example, in order. */
export type AppendDemo = (entries: readonly Entry[]) => Promise<void>

const SCRIPT = new URL('../../../../demo/build.ts', import.meta.url)

/**
 * Loads the worked example in one commit, and says which investigation it is; loading it again changes nothing. An investigation of
 * somebody else's that has the same name is left alone and named as taken.
 */
export async function loadDemo(records: Records): Promise<{ id: string } | { taken: string } | undefined> {
  const entries = await demoEntries()
  const [first] = entries
  if (first === undefined) return undefined
  const id = first.investigation
  const { sequence } = await records.ledger.head(id)
  if (sequence > 0) return (await records.ledger.sequencesOf(id, [first.id])).has(first.id) ? { id } : { taken: id }
  const { refused } = await records.append(id, entries)
  if (refused[0] !== undefined)
    throw new Error(`Cannot load the worked example because an entry was refused: got ${JSON.stringify(refused[0])}`)
  return { id }
}

/** The example of a day, made once: simulating and signing it takes a second or two. */
let made: { readonly today: string; readonly entries: Promise<readonly Entry[]> } | undefined

function demoEntries(): Promise<readonly Entry[]> {
  const today = new Date().toISOString().slice(0, 10)
  if (made?.today !== today) made = { today, entries: makeEntries(today) }
  return made.entries
}

async function makeEntries(today: string): Promise<readonly Entry[]> {
  if (!existsSync(SCRIPT)) return []
  const { buildDemo } = (await import(SCRIPT.href)) as {
    buildDemo?: (append: AppendDemo, told: { today: string }) => Promise<unknown>
  }
  const entries: Entry[] = []
  const append: AppendDemo = async (more) => {
    entries.push(...more)
  }
  await buildDemo?.(append, { today })
  return entries
}
