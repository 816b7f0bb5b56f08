import type { DeviceDatabase } from './database.ts'

/** What is half done on this device, by name, as text; it is no part of any record. */
export async function readDraft(database: DeviceDatabase, name: string): Promise<string | undefined> {
  return database.get('device', keyOf(name))
}

/** Keeps a draft, or takes it away where nothing is left to keep. Drafts written one after the other end with the last. */
export async function keepDraft(
  database: DeviceDatabase,
  { name, text }: { readonly name: string; readonly text: string | undefined },
): Promise<void> {
  if (text === undefined) await database.delete('device', keyOf(name))
  else await database.put('device', text, keyOf(name))
}

const keyOf = (name: string): string => `draft ${name}`
