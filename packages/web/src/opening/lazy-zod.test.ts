import type { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { expect, test, vi } from 'vitest'
import * as zod from 'zod/v4'
import * as lazy from './lazy-zod.ts'

type Kinds = typeof KINDS

/** The kinds of entries with zod itself, and as the build makes them. */
async function bothKinds(): Promise<readonly [plain: Kinds, lazily: Kinds]> {
  const path = '@rillmark/casebook/entry/kinds.ts'
  const { KINDS: plain } = (await import(path)) as { KINDS: Kinds }
  vi.resetModules()
  vi.doMock('zod', () => lazy)
  const { KINDS: lazily } = (await import(path)) as { KINDS: Kinds }
  vi.doUnmock('zod')
  return [plain, lazily]
}

const [PLAIN, LAZILY] = await bothKinds()

test.each(Object.keys(PLAIN) as (keyof Kinds)[])('%s describes and refuses the same, made later', (kind) => {
  const described = (schema: zod.ZodType): unknown => zod.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' })
  expect(LAZILY[kind].body).not.toBe(PLAIN[kind].body)
  expect(lazy.toJSONSchema(LAZILY[kind].body, { io: 'input', unrepresentable: 'any' })).toEqual(
    described(PLAIN[kind].body),
  )
  for (const bad of [undefined, null, 'text', {}, { at: 1, text: '', unknown: true }])
    expect(LAZILY[kind].body.safeParse(bad).error?.issues).toEqual(PLAIN[kind].body.safeParse(bad).error?.issues)
})

test('a schema is made when it is first asked, and is then what zod makes', () => {
  const made: string[] = []
  const reason = lazy.string().superRefine(() => void made.push('asked'))
  const schema = lazy.strictObject({ reason, count: lazy.int().min(1).default(3) }).optional()
  expect(made).toEqual([])
  expect(schema.parse({ reason: 'x' })).toEqual({ reason: 'x', count: 3 })
  expect(made).toEqual(['asked'])
  expect(schema.unwrap()).toBeInstanceOf(zod.ZodObject)
  expect(schema).toBeInstanceOf(zod.ZodOptional)
  expect(schema.unwrap().shape.count.safeParse(0).success).toBe(false)
})
