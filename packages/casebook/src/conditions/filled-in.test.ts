import table from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import { expect, test } from 'vitest'
import * as z from 'zod'
import { componentSchema, pipeSchema, supplySchema } from '../building/water-system.ts'
import { type FilledIn, filledIn, guessed, type GuessedFact, sourceWords } from './filled-in.ts'

const sourced = { source: z.string().min(1), known: z.enum(['seen', 'computed', 'memory']) }
const range = { lower: z.number(), upper: z.number() }
const unit = z.string().min(1)
const figure = z.strictObject({
  text: z.string().includes('{'),
  value: z.number().optional(),
  unit,
  ...range,
  ...sourced,
})
const fact = z.strictObject({
  text: z.string().min(1),
  part: z.string(),
  unit,
  value: z.number(),
  ...range,
  ...sourced,
})

test('[SIM4] every figure that may be filled in has a unit, a range around it and a source', () => {
  for (const { note: _note, ...one } of Object.values<Record<string, unknown>>(table.figures)) {
    const read = figure.safeParse(one)
    expect(read.error?.issues ?? []).toEqual([])
  }
  const ids = Object.keys(table.figures).filter((id): id is FilledIn => id !== 'use')
  for (const id of ids) {
    const { value, range: given, text } = filledIn(id)
    expect(value, id).toBeGreaterThanOrEqual(given?.lower ?? Number.NaN)
    expect(value, id).toBeLessThanOrEqual(given?.upper ?? Number.NaN)
    expect(text, id).toContain(String(value))
  }
})

test('[SIM4] every fact that may be guessed is one of the description, and left as it is unless another is tried', () => {
  const described = [componentSchema, pipeSchema, supplySchema].flatMap(({ shape }) => Object.keys(shape))
  for (const id of Object.keys(table.guessed) as GuessedFact[]) {
    expect(described).toContain(id)
    expect(fact.safeParse(table.guessed[id]).error?.issues ?? []).toEqual([])
    const { shifts, assumption } = guessed(id)
    expect(assumption.value).toBe(shifts ? 0 : 1)
    expect(guessed(id, { [`guessed:${id}`]: 0.5 }).assumption.value).toBe(0.5)
  }
})

test('[SIM4] a source that is only remembered says so, once', () => {
  expect(sourceWords({ source: 'a handbook', known: 'memory' })).toBe('a handbook; from memory')
  expect(sourceWords({ source: 'a handbook', known: 'seen' })).toBe('a handbook')
  expect(sourceWords({ source: 'common practice, no source', known: 'memory' })).toBe('common practice, no source')
  expect(filledIn('heaterLoss').source.match(/from memory/g)).toHaveLength(1)
})
