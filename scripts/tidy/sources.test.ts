import { expect, test } from 'vitest'
import { unsourced } from './sources.ts'
import { parseSource } from './syntax.ts'

const found = (text: string) => unsourced([parseSource({ path: 'a.ts', text })]).map((each) => each.found)

test.each([
  ['/** Computes.\n * @source handbook */\nexport function f() {}'],
  ['/** @source handbook */\nexport const f = () => 1'],
  ['/** @source handbook */\nexport async function f() {}'],
  ['/** @source handbook */\nfunction f() {}\nexport { f }'],
  ['function inner() {}\nexport const LIMIT = 3\nexport type T = string'],
])('%s is allowed', (text) => {
  expect(found(text)).toEqual([])
})

test.each([
  ['export function f() {}', 'f has no docstring'],
  ['/** @source handbook */\nconst A = 1\nexport function f() {}', 'f has no docstring'],
  ['// @source handbook\nexport function f() {}', 'f has no docstring'],
  ['/* @source handbook */\nexport function f() {}', 'f has no docstring'],
  ['/** Computes. */\nexport const f = () => 1', 'the docstring of f names no @source'],
  ['/** Computes.\n * @source\n */\nexport function f() {}', 'the docstring of f names no @source'],
  ['function f() {}\nexport { f }', 'f has no docstring'],
])('%s is refused', (text, want) => {
  expect(found(text)).toEqual([want])
})
