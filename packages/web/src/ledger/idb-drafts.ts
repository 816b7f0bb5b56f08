import { type DeviceDatabase, DURABLE } from './database.ts'

/** What is half done on this device, by name, as text; it is no part of any record. */
export async function readDraft(database: DeviceDatabase, name: string): Promise<string | undefined> {
  return database.get('device', keyOf(name))
}

/**
 * Keeps a draft, or takes it away where nothing is left to keep. Drafts written one after the other end with the last. It is on the disk
 * when the promise resolves, and told to be written before this returns, so that a page closed right after takes nothing back.
 */
export async function keepDraft(
  database: DeviceDatabase,
  { name, text }: { readonly name: string; readonly text: string | undefined },
): Promise<void> {
  const transaction = database.transaction('device', 'readwrite', DURABLE)
  const { store } = transaction
  const written = text === undefined ? store.delete(keyOf(name)) : store.put(text, keyOf(name))
  transaction.commit()
  await Promise.all([written, transaction.done])
}

const keyOf = (name: string): string => `draft ${name}`
