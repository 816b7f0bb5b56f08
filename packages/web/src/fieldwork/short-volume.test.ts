import { expect, it } from 'vitest'
import { shortVolumeWords } from './short-volume.ts'

it.each([
  [1000, 1000, undefined],
  [900, 1000, undefined],
  [890, 1000, '890 mL where 1000 mL are planned'],
  [5, 1000, '5 mL where 1000 mL are planned'],
  [5, undefined, undefined],
])('a bottle of %d mL where %s are planned: %s', (volumeMl, plannedMl, words) => {
  expect(shortVolumeWords(volumeMl, plannedMl)).toBe(words)
})
