import type { Verdict } from '../chain/verify.ts'

/** What a walk along the chain found, for people. `waiting` entries are kept but not yet tied in. */
export interface VerdictWords {
  readonly sound: boolean
  readonly words: string
  /** the hash of the last sound entry, in groups to read aloud; undefined before any */
  readonly hash?: string | undefined
}

/** A verdict in words; a broken chain is named by its first broken entry, and what stands before it still holds. */
export function verdictWords(verdict: Verdict, waiting: number): VerdictWords {
  if (!verdict.sound) {
    const { sequence, reason, lastSound } = verdict
    const before =
      lastSound.sequence === 0
        ? 'Nothing before it.'
        : lastSound.sequence === 1
          ? 'Entry 1 is sound.'
          : `Entries 1 to ${lastSound.sequence} are sound.`
    return {
      sound: false,
      words: `Broken at entry ${sequence}: ${reason}. ${before} Keep this copy, and compare it with the server's or an exported one.`,
      hash: lastSound.sequence === 0 ? undefined : hashGroups(lastSound.hash),
    }
  }
  const { sequence, hash } = verdict.head
  const late = waiting === 0 ? '' : ` ${waiting} more ${waiting === 1 ? 'waits' : 'wait'} to be tied in by the server.`
  if (sequence === 0) return { sound: true, words: `No entry is tied into the chain on this device yet.${late}` }
  const each =
    sequence === 1
      ? 'Sound: the one entry is tied to this investigation.'
      : `Sound: ${sequence} entries, each tied to the one before it.`
  return {
    sound: true,
    words: `${each}${signedWords(verdict)}${late} The head is entry ${sequence}:`,
    hash: hashGroups(hash),
  }
}

function signedWords({ signed, unsigned }: Extract<Verdict, { sound: true }>): string {
  if (signed === undefined || unsigned === undefined) return ''
  if (signed === 0) return ' None is signed.'
  return unsigned === 0
    ? ' All are signed, and every signature fits.'
    : ` ${signed} are signed and fit, ${unsigned === 1 ? '1 carries' : `${unsigned} carry`} no signature.`
}

/** A hash in groups of four, which people can compare by eye and by voice. */
export function hashGroups(hash: string): string {
  return hash.match(/.{1,4}/g)?.join(' ') ?? ''
}
