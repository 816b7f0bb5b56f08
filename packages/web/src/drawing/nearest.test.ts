import { expect, it } from 'vitest'
import { nearest } from './nearest.ts'

const targets = [
  { id: '101', x: 0, y: 100 },
  { id: '102', x: 30, y: 100 },
  { id: '201', x: 0, y: 50 },
  { id: '202', x: 30, y: 50 },
  { id: 'heater', x: 70, y: 160 },
]
const at = (id: string) => targets.find((target) => target.id === id) ?? { id, x: 0, y: 0 }

it.each([
  ['101', 'right', '102'],
  ['101', 'up', '201'],
  ['202', 'down', '102'],
  ['202', 'left', '201'],
  ['102', 'down', 'heater'],
  ['201', 'left', undefined],
  ['201', 'up', undefined],
] as const)('from %s going %s comes to %s', (from, direction, to) => {
  expect(nearest(targets, { from: at(from), direction })?.id).toBe(to)
})
