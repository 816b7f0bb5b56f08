import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { bodyFacts, compareBodies } from './body-facts.ts'

test('[REC22] every value of a body is a fact, also nested ones and empty lists', () => {
  const body = {
    code: 'C1',
    sealed: false,
    target: { value: 60, unit: 'Cel' },
    teams: [],
    outlets: ['a', 'b'],
    samples: [{ label: 'X1' }, { label: 'X2', notes: undefined }],
  }
  expect(bodyFacts(body)).toEqual([
    { path: 'code', value: 'C1' },
    { path: 'sealed', value: 'no' },
    { path: 'target.value', value: '60' },
    { path: 'target.unit', value: 'Cel' },
    { path: 'teams', value: 'none' },
    { path: 'outlets', value: 'a, b' },
    { path: 'samples.0.label', value: 'X1' },
    { path: 'samples.1.label', value: 'X2' },
  ])
})

test('[REC23] versions stand side by side and each difference is said in a word', () => {
  const compared = compareBodies([
    { a: 1, b: 'x' },
    { a: 2, b: 'x', c: true },
    { a: 2, c: false },
  ])
  const words = Object.fromEntries(compared.map(({ path, versions }) => [path, versions.map(({ change }) => change)]))
  expect(words).toEqual({
    a: ['first', 'changed', 'same'],
    b: ['first', 'same', 'removed'],
    c: ['first', 'added', 'changed'],
  })
})

test('[REC23] a body compared with itself shows no difference, whatever it holds', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      const changes = compareBodies([{ value }, { value }]).map(({ versions }) => versions[1]?.change)
      expect(changes.filter((change) => change !== 'same')).toEqual([])
    }),
  )
})
