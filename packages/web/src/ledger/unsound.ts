import type { KeptLink } from './database.ts'

/** Where it is kept, beside what this device is, how far the signatures of an investigation were checked and what was found. */
export const signaturesKey = (investigation: string): string => `signatures ${investigation}`

/** Within one transaction over both stores. */
interface Kept {
  readonly device: { readonly get: (key: string) => Promise<string | undefined> }
  readonly links: { readonly get: (key: [string, number]) => Promise<KeptLink | undefined> }
}

/** Whether an entry that is held here was found not to hold, by whichever tab. */
export async function isUnsound({ device, links }: Kept, investigation: string): Promise<boolean> {
  const text = await device.get(signaturesKey(investigation))
  const { unsound } = text === undefined ? {} : (JSON.parse(text) as { unsound?: { sequence: number; hash: string } })
  if (unsound === undefined) return false
  return (await links.get([investigation, unsound.sequence]))?.link.hash === unsound.hash
}
