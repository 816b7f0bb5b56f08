// Scald times of skin. Table in the line of Moritz and Henriques 1947 as printed by a maker of anti-scald valves: seen.
// Consumer-safety list of a children's hospital alliance: seen. Infants, trade association of heater makers: seen.
// Adult third-degree times of a consumer-safety commission: memory.
import { scaldTime } from '@rillmark/science/scald/scald-time.ts'
import { expect, test } from 'vitest'

const celsius = (fahrenheit: number) => (fahrenheit - 32) / 1.8

test.each([
  // °C, second degree s, third degree s
  [45, 7200, 10_800],
  [47, 1200, 2700],
  [48, 900, 1200],
  [49, 480, 600],
  [51, 120, 252],
  [55, 17, 30],
  [60, 3, 5],
])('%d °C', (temperatureC, second, third) => {
  expect(scaldTime({ temperatureC })).toMatchObject({ secondsAdult: second, secondsAdultFullThickness: third })
})

test.each([
  // °F, list of seconds (as a range where one is printed)
  [125, 90, 120],
  [130, 30, 30],
  [135, 10, 10],
  [150, 1.5, 1.5],
  [155, 1, 1],
])('the other list, at %d °F, agrees within a factor of two', (fahrenheit, least, most) => {
  // It gives no depth of burn; sources differ by as much.
  const { secondsAdult = 0 } = scaldTime({ temperatureC: celsius(fahrenheit) })
  expect(secondsAdult).toBeGreaterThan(least / 2)
  expect(secondsAdult).toBeLessThan(most * 2)
})

test.each([
  [120, 240],
  [140, 1],
  [150, 0.5],
])('infants at %d °F', (fahrenheit, published) => {
  // Degrees Celsius of the rows are rounded to 0.1: 2 %.
  const { secondsChild = 0 } = scaldTime({ temperatureC: celsius(fahrenheit) })
  expect(Math.abs(secondsChild / published - 1)).toBeLessThan(0.02)
})

test('no published adult time is shorter than half of what is shown: 150 °F 2 s, 140 °F 6 s, 130 °F 30 s, 120 °F 5 min', () => {
  for (const [fahrenheit, third] of [
    [150, 2],
    [140, 6],
    [130, 30],
    [120, 300],
  ] as const) {
    const { secondsAdult = 0 } = scaldTime({ temperatureC: celsius(fahrenheit) })
    expect(third).toBeGreaterThan(secondsAdult / 2)
  }
})
