import { createHash } from 'node:crypto'
import type { Chance } from './seed.ts'

export interface TestPhoto {
  readonly sha256: string
  readonly content: Uint8Array<ArrayBuffer>
}

const WORD_MAX = 2 ** 31 - 1

/** Bytes that begin as a JPEG does (ITU-T T.81: SOI marker) and go on as noise, so that no two are alike. */
export function testPhoto(bytes: number, chance: Chance): TestPhoto {
  const words = new Int32Array(Math.ceil(bytes / 4))
  let word = chance.between(1, WORD_MAX)
  for (let at = 0; at < words.length; at += 1) {
    word = (Math.imul(word, 1_664_525) + 1_013_904_223) | 0
    words[at] = word
  }
  const content = new Uint8Array(words.buffer, 0, bytes)
  content.set([0xff, 0xd8, 0xff])
  return { content, sha256: createHash('sha256').update(content).digest('hex') }
}
