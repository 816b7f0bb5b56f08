import { expect, test } from 'vitest'
import { unsignedWords } from './unsigned-words.ts'

const signature = { key: 'a', value: 'b' }
const record = (marks: string) => [...marks].map((mark) => (mark === 's' ? { signature } : {}))

const MEANS = 'the chain shows that they fit together, not who wrote them.'

test.each([
  ['sss', undefined],
  ['', undefined],
  ['---', `No entry is signed: ${MEANS}`],
  ['s-s', `1 entry is not signed (2): ${MEANS}`],
  ['---s--s-', `6 entries are not signed (1 to 3, 5 to 6, 8): ${MEANS}`],
  ['s-s-s-s-s-s-s-s', `7 entries are not signed (2, 4, 6, 8, 10, 12, …): ${MEANS}`],
])('[REC28] which entries of %j are not signed is said by their numbers', (marks, want) => {
  expect(unsignedWords(record(marks))).toBe(want)
})
