import { expect, test } from 'vitest'
import { cellWords, figureJson, typedCell, typedFigure } from './typed-cell.ts'

test('a figure with two readings is refused, one with one is read', () => {
  expect(typedFigure('1 250,5')).toEqual({ value: 1250.5 })
  expect(typedFigure('−3')).toEqual({ value: -3 })
  expect(typedFigure('1,250')).toMatchObject({ doubtful: true })
  expect(typedFigure('some')).toMatchObject({ doubtful: false })
})

test('a choice is read by its words', () => {
  const spec = { kind: 'choice', choices: ['not-detected', 'positive'] } as const
  expect(typedCell(spec, 'Not detected')).toEqual({ draft: 'not-detected' })
  expect(cellWords(spec, 'not-detected')).toBe('not detected')
  expect(typedCell(spec, '')).toEqual({ draft: '' })
  expect(typedCell(spec, 'maybe')).toEqual({ problem: '“maybe” is none of not detected, positive.' })
})

test('yes and no are figures under a name of one’s own', () => {
  expect(['yes', 'N', '2,5'].map(figureJson)).toEqual([{ draft: '1' }, { draft: '0' }, { draft: '2.5' }])
  expect(figureJson('x')).toMatchObject({ problem: '“x” is not a number.' })
})
