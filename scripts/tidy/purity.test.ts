import { expect, test } from 'vitest'
import { impurities } from './purity.ts'
import { parseSource } from './syntax.ts'

const found = (text: string) =>
  impurities([parseSource({ path: 'packages/science/src/a/a.ts', text })]).map((each) => `${each.line}: ${each.found}`)

test.each([
  ['Date.now()', 'uses Date.now'],
  ['new Date()', 'uses new Date()'],
  ['Date()', 'calls Date()'],
  ['new Date(2024, 1, 2)', 'uses new Date(year, month, …)'],
  ['Temporal.Now.instant()', 'uses Temporal.Now'],
  ['performance.now()', 'uses performance'],
  ['Math.random()', 'uses Math.random'],
  ['[1].map(Math.random)', 'uses Math.random'],
  ['crypto.randomUUID()', 'uses crypto.randomUUID'],
  ["console.log('x')", 'uses console'],
  ['process.env', 'uses process'],
  ["fetch('x')", 'uses fetch'],
  ['({ fetch })', 'uses fetch'],
  ["localStorage.getItem('x')", 'uses localStorage'],
  ['document.title', 'uses document'],
  ['(1).toLocaleString()', 'uses toLocaleString()'],
  ['instant.getHours()', 'uses getHours()'],
  ['instant.getTimezoneOffset()', 'uses getTimezoneOffset()'],
  ['Intl.NumberFormat()', "uses Intl.NumberFormat with the machine's locale"],
  ['new Intl.DateTimeFormat(undefined, {})', "uses Intl.DateTimeFormat with the machine's locale"],
  ["'a'.localeCompare('b')", "uses localeCompare with the machine's locale"],
])('%s is refused', (expression, want) => {
  expect(found(`\nexport const x = ${expression}`)).toEqual([`2: ${want}`])
})

test.each([["import { readFileSync } from 'node:fs'"], ["export * from 'node:os'"], ["await import('node:fs')"]])(
  '%s is refused',
  (text) => {
    expect(found(text)).toHaveLength(1)
  },
)

test.each([
  ["Date.parse('2024-01-02T00:00:00Z') + Date.UTC(2024, 0, 2)"],
  ["new Date('2024-01-02T00:00:00Z').getUTCHours()"],
  ["new Intl.NumberFormat('en-GB').format(1)"],
  ["'a'.localeCompare('b', 'en')"],
  ['((window: { from: string }) => window.from)({ from: "x" })'],
  ['(({ process }: { process: string }) => process)({ process: "x" })'],
  ['state.document.console'],
  ['({ window: 1, fetch: 2 })'],
  ['"Math.random() and console.log"'],
])('%s is allowed', (expression) => {
  expect(found(`export const x = ${expression}`)).toEqual([])
})
