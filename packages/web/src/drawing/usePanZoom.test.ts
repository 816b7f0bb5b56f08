import { expect, it } from 'vitest'
import { fitting, starting } from './usePanZoom.ts'

const wide = { x: 0, y: 0, width: 1000, height: 500 }

it('fits the whole drawing, centred', () => {
  const { k, x, y } = fitting({ width: 500, height: 500 }, wide)
  expect([k, x, y]).toEqual([0.5, 0, 125])
})

it('does not blow up a small drawing, nor fail on a hidden one', () => {
  expect(fitting({ width: 5000, height: 5000 }, wide).k).toBe(1.4)
  expect(fitting({ width: 0, height: 0 }, wide).k).toBe(1)
})

it('starts on a phone at full height from the left, at a desk with the whole', () => {
  expect(starting({ width: 390, height: 450 }, wide)).toMatchObject({ k: 0.9, x: 0 })
  expect(starting({ width: 900, height: 450 }, wide).k).toBe(0.9)
  expect(starting({ width: 390, height: 2000 }, wide).k).toBe(1)
})
