import { METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { showTemperature } from '@rillmark/casebook/units/display.ts'
import { expect, it } from 'vitest'
import { curveScale, nudged, readPoints, outsideWords, verdictWords, withPoint, writePoints } from './curve.ts'

const points = [
  { seconds: 0, temperatureC: 26.1 },
  { seconds: 10, temperatureC: 33 },
]

it('a curve comes back from the draft as it went in; damage is left out', () => {
  expect(readPoints(writePoints(points))).toEqual(points)
  expect(readPoints('')).toEqual([])
  expect(readPoints('0:26.1 10: x:y')).toEqual([{ seconds: 0, temperatureC: 26.1 }])
})

it('readings run forward: a second one in the same second replaces the first', () => {
  expect(withPoint(points, { seconds: 10, temperatureC: 34 }).map(({ temperatureC }) => temperatureC)).toEqual([
    26.1, 34,
  ])
  expect(withPoint(points, { seconds: 20, temperatureC: 40 })).toHaveLength(3)
  expect(withPoint(points, { seconds: 4, temperatureC: 40 }).map(({ seconds }) => seconds)).toEqual([0, 10])
})

// A degree of Fahrenheit's scale is 5/9 K: 125 °F are 51.667 °C (to the places kept), 126 °F are 52.222 °C.
it.each([
  [51.9, 0.5, METRIC_UNITS, 52.4, '52.4 °C'],
  [51.667, 1, US_UNITS, 52.222, '126.0 °F'],
  [60, -0.2, US_UNITS, 59.889, '139.8 °F'],
])('%d °C moved by a step of %d as the thermometer shows it', (last, step, units, want, shown) => {
  expect(nudged(last, { step, units })).toBe(want)
  expect(showTemperature(want, units).words).toBe(shown)
})

it('says the verdict in words', () => {
  const words = (kind: 'met' | 'late' | 'not reached' | 'open', seconds: number) =>
    verdictWords({ verdict: { kind, seconds }, quantity: 'hot-temperature', show: (celsius) => `${celsius} °C` })
  expect(words('not reached', 80)).toBe('50 °C was not reached in 1 min 20 s.')
  expect(words('late', 70)).toBe('50 °C was reached only at 1 min 10 s; 1 min is allowed.')
  expect(words('met', 30)).toBe('50 °C was reached by 30 s.')
  expect(words('open', 30)).toBe('50 °C is expected within 1 min.')
})

it('the axes hold every reading and the threshold', () => {
  const scale = curveScale(points, { width: 300, height: 150, thresholdC: 50, left: 40 })
  expect(scale.ticksC).toEqual([20, 30, 40, 50, 60])
  expect(scale.y(60)).toBe(0)
  expect(scale.x(scale.endSeconds)).toBe(300)
})

it.each([
  [41.2, undefined, undefined],
  [999, undefined, '-5 °C to 110 °C is possible here. Read it again.'],
  [412, { rangeMin: -20, rangeMax: 110 }, '-5 °C to 110 °C is possible here. Read it again.'],
  [75, { rangeMin: 0, rangeMax: 70 }, '0 °C to 70 °C is possible here. Read it again.'],
  [110, { rangeMin: -20, rangeMax: 110 }, undefined],
])('[FLD13] %d °C on a probe of %j: %s', (temperatureC, probe, words) => {
  expect(outsideWords(temperatureC, { probe, show: (celsius) => `${celsius} °C` })).toBe(words)
})
