// Ways to break a record, one file each in checks/tampering/record/: every one must be caught, and the first broken link named.
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { readRecordLines, recordLines } from '@rillmark/casebook/chain/record-lines.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { expect, test } from 'vitest'
import { INVESTIGATION, sound, type Way } from './tampering/way.ts'

const FEWEST_WAYS = 80
const folder = fileURLToPath(new URL('tampering/record/', import.meta.url))
const names = readdirSync(folder).filter((name) => name.endsWith('.ts'))
const ways = await Promise.all(
  names.map(async (name) => ({ name, ...((await import(`${folder}${name}`)) as { way: Way }).way })),
)
const last = sound.links.at(-1)
const head = { sequence: sound.links.length, hash: last?.hash ?? '' }

function verdictOn(record: readonly unknown[] | string, known?: typeof head) {
  const expected = { investigation: INVESTIGATION, head: known }
  return typeof record === 'string' ? readRecordLines(record, expected).verdict : verifyChain(record, expected)
}

test('[REC2] the record before any tampering is sound, as links and as text', () => {
  expect(verdictOn(sound.links, head)).toEqual({ sound: true, head })
  expect(readRecordLines(recordLines(sound.links), { investigation: INVESTIGATION, head })).toEqual({
    verdict: { sound: true, head },
    links: sound.links,
  })
})

test(`there are at least ${FEWEST_WAYS} ways, each with its own name`, () => {
  expect(ways.length).toBeGreaterThanOrEqual(FEWEST_WAYS)
  expect(new Set(ways.map(({ title }) => title)).size).toBe(ways.length)
})

test.each(ways)('[REC8] $title', ({ tamper, breaksAt, needsHead }) => {
  const record = tamper(sound)
  const verdict = verdictOn(record, needsHead === true ? head : undefined)
  expect(verdict).toMatchObject({ sound: false, sequence: breaksAt, lastSound: { sequence: breaksAt - 1 } })
  expect(verdict.sound ? '' : verdict.reason).not.toBe('')
})

test.each(ways.filter(({ needsHead }) => needsHead === true))(
  '[REC9] without a known head nobody could tell: $title',
  ({ tamper }) => {
    expect(verdictOn(tamper(sound)).sound).toBe(true)
  },
)

// A way for every path: change each field of each link, whatever it is.
test('[REC8] any field of any link, altered, is caught at its own link', () => {
  for (const [index, link] of sound.links.entries()) {
    for (const path of pathsOf(link)) {
      const copy = structuredClone(sound.links) as unknown[]
      setAt(copy[index], path)
      expect(verdictOn(copy), `${index + 1} ${path.join('.')}`).toMatchObject({ sound: false, sequence: index + 1 })
    }
  }
})

function pathsOf(value: unknown, at: readonly string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [[...at]]
  return Object.entries(value).flatMap(([key, inner]) => pathsOf(inner, [...at, key]))
}

function setAt(root: unknown, path: readonly string[]): void {
  const [key = '', ...rest] = path
  const object = root as Record<string, unknown>
  if (rest.length > 0) return setAt(object[key], rest)
  const value = object[key]
  object[key] = typeof value === 'number' ? value + 1 : `${String(value)}x`
}
