import { expect, test } from 'vitest'
import { switchedTests, unmatchedRules } from './specs.ts'
import { parseSource } from './syntax.ts'

const source = (text: string) => parseSource({ path: 'a.test.ts', text })
const matched = (spec: string, tests: string) =>
  unmatchedRules([{ path: 'SPEC.md', text: spec }], [source(tests)]).map(
    (each) => `${each.file}:${each.line} ${each.rule}`,
  )

test('a rule no test names is told, with its line', () => {
  expect(matched('# Rules\n\n- [CUS4] A sealed box is closed.', "test('a sealed box is closed', () => {})")).toEqual([
    'SPEC.md:3 rule-tested',
  ])
})

test('a test that names a rule nobody wrote is told, with its line', () => {
  expect(matched('', "\ntest('[CUS4] a sealed box is closed', () => {})")).toEqual(['a.test.ts:2 rule-written'])
})

test.each([
  ["test('[CUS4] a sealed box is closed', () => {})"],
  ['test.each(rows)(`[CUS4] ${name} is closed`, () => {})'],
  ["describe('[CUS4] sealing', () => {})"],
  ["test.fails('[CUS4] a sealed box is closed', () => {})"],
  ["test('[CUS3] [CUS4] both', () => {})"],
])('%s proves its rule', (tests) => {
  expect(matched('[CUS4] A sealed box is closed.\n[CUS3] Else.', `${tests}\ntest('[CUS3] else', () => {})`)).toEqual([])
})

test('an id in a comment or a variable proves nothing', () => {
  expect(matched('- [CUS4] A sealed box is closed.', "// [CUS4]\nconst a = '[CUS4]'")).toEqual([
    'SPEC.md:1 rule-tested',
  ])
})

test('one id is one rule', () => {
  const spec = '- **[CUS4]** One thing.\n- [CUS4] Another.\nSee [CUS4].'
  expect(matched(spec, "test('[CUS4] x', () => {})")).toEqual(['SPEC.md:2 rule-once'])
})

test.each([
  ["test.only('x', () => {})"],
  ["test.skip('x', () => {})"],
  ["it.todo('x')"],
  ["describe.skip('x', () => {})"],
  ["test.describe.only('x', () => {})"],
  ["test.concurrent.only('x', () => {})"],
  ["test.skipIf(true)('x', () => {})"],
  ["test.fixme('x', () => {})"],
  ["test.only.each([1])('x', () => {})"],
  ["xit('x', () => {})"],
  ["test('x', (ctx) => { ctx.skip() })"],
])('%s is refused', (text) => {
  expect(switchedTests([source(text)])).toHaveLength(1)
})

test.each([
  ["test.each([1])('x', () => {})"],
  ["test.fails('x', () => {})"],
  ["const text = 'test.only()'"],
  ['list.skip(3)'],
])('%s is allowed', (text) => {
  expect(switchedTests([source(text)])).toEqual([])
})
