import { globSync, readFileSync } from 'node:fs'
import register from '@rillmark/reference/sources/calculations.json' with { type: 'json' }
import { expect, test } from 'vitest'
import * as z from 'zod'

const root = new URL('..', import.meta.url)
const files = globSync('*/*.ts', { cwd: root })
  .filter((path) => !path.endsWith('.test.ts'))
  .map((path) => ({ path, text: readFileSync(new URL(path, root), 'utf8') }))

const examples = files.flatMap(({ path, text }) =>
  [...text.matchAll(/^ \* (\S.*) \/\/ => (.+)$/gm)].map(([, code = '', want = '']) => ({ path, code, want })),
)

test.each(examples)('$path: $code', async ({ path, code, want }) => {
  const names: Record<string, unknown> = { z, ...(await import(/* @vite-ignore */ new URL(path, root).href)) }
  // oxlint-disable-next-line typescript/no-implied-eval -- the examples of our own docstrings are run as they stand
  const evaluate = new Function(...Object.keys(names), `return [${code}, ${want}]`) as (
    ...args: unknown[]
  ) => [unknown, unknown]
  const [got, wanted] = evaluate(...Object.values(names))
  const digits = (value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(12)) : value)
  expect(digits(got)).toEqual(digits(wanted))
})

test('there are examples to run', () => {
  expect(examples.length).toBeGreaterThan(25)
})

test('every source a docstring names is in the register, and every registered one is used', () => {
  const known = new Set(register.sources.map(({ id }) => id))
  const named = files.flatMap(({ path, text }) =>
    [...text.matchAll(/@source (?!none: )(\S+)/g)].map(([, id = '']) => ({ path, id })),
  )
  expect(named.filter(({ id }) => !known.has(id))).toEqual([])
  const reference = globSync('{chlorine,pipes,water,incubation,plate-count,network}/*.json', {
    cwd: new URL('../../../reference/', root),
  })
    .map((path) => readFileSync(new URL(`../../../reference/${path}`, root), 'utf8'))
    .join('')
  const everything = files.map(({ text }) => text).join('') + reference
  expect([...known].filter((id) => !everything.includes(id))).toEqual([])
})
