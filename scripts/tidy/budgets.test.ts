import { expect, test } from 'vitest'
import { overBudget, strayTests } from './budgets.ts'
import { parseSource } from './syntax.ts'

const rules = (text: string, path = 'packages/science/src/a/a.ts') =>
  overBudget([parseSource({ path, text })]).map((each) => `${each.line} ${each.rule}`)
const lines = (count: number, line = 'f()') => `${line}\n`.repeat(count)

test('a file may have 500 lines and no more', () => {
  expect(rules(lines(500))).toEqual([])
  expect(rules(lines(501))).toEqual(['501 file-lines'])
})

test.each([
  ['function f() {', '}'],
  ['const f = () => {', '}'],
  ['class A { f() {', '} }'],
])('a function "%s" may have 70 lines and no more', (open, close) => {
  expect(rules(`${open}\n${lines(68)}${close}`)).toEqual([])
  expect(rules(`\n${open}\n${lines(69)}${close}`)).toEqual(['2 function-lines'])
})

test('a suite is measured test by test, a test as one function', () => {
  const suite = (body: string) => `describe('x', () => {\n${body}})`
  expect(rules(suite(lines(40, "test('y', () => {\n  f()\n})")))).toEqual([])
  expect(rules(suite(`test('y', () => {\n${lines(69)}})`))).toEqual(['2 function-lines'])
  expect(rules(`test.each([1])('y', () => {\n${lines(69)}})`)).toEqual(['1 function-lines'])
  expect(rules(suite(lines(80)))).toEqual(['1 function-lines'])
})

test.each([
  ['export function f(a: number, b: number, c: number) {}'],
  ['export const f = (a: number, b: number, c: number) => a'],
  ['export default function (a: number, b: number, c: number) {}'],
  ['const f = (a: number, b: number, ...c: number[]) => a\nexport { f }'],
])('three positional parameters are refused: %s', (text) => {
  expect(rules(text)).toEqual(['1 parameters'])
})

test('two parameters, or three of a private function, are allowed', () => {
  expect(rules('export function f(a: number, { b, c }: { b: 1; c: 2 }) {}')).toEqual([])
  expect(rules('function f(a: number, b: number, c: number) {}')).toEqual([])
})

test('two folders below src, not three', () => {
  expect(rules('f()', 'packages/web/src/plan/list/row.tsx')).toEqual([])
  expect(rules('f()', 'packages/web/src/plan/list/parts/row.tsx')).toEqual(['1 depth'])
})

test('a test sits beside the source whose name it carries', () => {
  const at = 'packages/science/src/a/'
  expect(strayTests([`${at}dose.ts`, `${at}dose.test.ts`, `${at}dose.limits.test.ts`])).toEqual([])
  expect(strayTests([`${at}screen.tsx`, `${at}screen.test.ts`, 'checks/dose.test.ts'])).toEqual([])
  expect(strayTests([`${at}dose.ts`, `${at}doses.test.ts`, `${at}tests/dose.test.ts`])).toHaveLength(2)
})
