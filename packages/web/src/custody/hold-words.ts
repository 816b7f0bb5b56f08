import type { SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import { durationWords } from '@rillmark/casebook/custody/time-words.ts'
import type { TagProps } from '../kit/Tag.tsx'

/** How long a sample has left, as mark, weight and words. */
export function holdTag({ clock, leftMs = 0 }: Pick<SampleCustody, 'clock' | 'leftMs'>): {
  readonly shape: TagProps['shape']
  readonly kind: TagProps['kind']
  readonly words: string
} {
  const time = durationWords(leftMs)
  switch (clock) {
    case 'running':
      return { shape: 'half', kind: leftMs < SOON_MS ? 'warn' : 'plain', words: `${time} left` }
    case 'over':
      return { shape: 'triangle', kind: 'bad', words: `over by ${time}` }
    case 'stopped in time':
      return { shape: 'check', kind: 'plain', words: `in time, ${time} to spare` }
    case 'stopped late':
      return { shape: 'triangle', kind: 'bad', words: `late by ${time}` }
    case 'none':
      return { shape: 'dash', kind: 'faint', words: 'no clock' }
  }
}

/** From here on the words are set in the colour of a warning; nothing else depends on it. */
const SOON_MS = 4 * 3_600_000
