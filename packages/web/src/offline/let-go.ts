import { makeSignal } from './signal.ts'

/**
 * Why this tab no longer reads or writes what the browser keeps. `newer tab`: another tab brought a newer version and needed it alone; `older
 * app`: what is kept is of a newer version than this tab's scripts; `browser`: the browser closed it; `another device`: in another tab this browser joined anew,
 * under another name and key; `anew here`: it was begun in this one, and the server did not let it in yet.
 */
export type LetGo = 'newer tab' | 'older app' | 'browser' | 'another device' | 'anew here'

export const letGo = makeSignal<LetGo | undefined>(undefined)

/** What is kept was written by a newer version of the app (IndexedDB: VersionError). */
export function isOlderThanKept(error: unknown): boolean {
  return error instanceof Error && error.name === 'VersionError'
}
