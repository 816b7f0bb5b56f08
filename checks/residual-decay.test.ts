// Decay of a residual in water and at the wall.
// EPANET 2.2 manual, chapter 12: formulas (seen). Single-pipe concentrations by the network engine 2.3.5 with a 1 s step,
// and first-order and Arrhenius tables: computed. Koechling 1998, 1.1 for each degree, as cited in that manual: seen.
import { residualDecay } from '@rillmark/science/chlorine/residual-decay.ts'
import { wallFilm } from '@rillmark/science/chlorine/wall-film.ts'
import { expect, test } from 'vitest'

const HOURS_PER_DAY = 24
const bottle = {
  startMgPerL: 1,
  wallMPerHour: 0,
  temperatureC: 20,
  referenceC: 20,
  flowLPerMin: 0,
  standingSherwood: 3.65,
}

test.each([
  // per day, half-life h, left after 8 h, after 24 h
  [0.05, 332.7, 0.9835, 0.9512],
  [0.1, 166.4, 0.9672, 0.9048],
  [0.25, 66.5, 0.92, 0.7788],
  [0.5, 33.27, 0.8465, 0.6065],
  [1, 16.64, 0.7165, 0.3679],
  [2, 8.32, 0.5134, 0.1353],
  [5, 3.33, 0.1889, 0.0067],
])('%d per day', (perDay, halfLife, after8, after24) => {
  const at = (hours: number) => residualDecay({ ...bottle, hours, bulkPerHour: perDay / HOURS_PER_DAY })
  expect(Math.abs((at(8).halfLifeHours ?? 0) - halfLife)).toBeLessThan(0.051)
  expect(at(8).residualMgPerL).toBeCloseTo(after8, 4)
  expect(at(24).residualMgPerL).toBeCloseTo(after24, 4)
})

test.each([
  [10, 0.193],
  [30, 1.297],
  [40, 3.364],
])('0.5 per day at 20 °C is that at %d °C', (temperatureC, perDay) => {
  const got = residualDecay({ ...bottle, hours: 1, temperatureC, bulkPerHour: 0.5 / HOURS_PER_DAY })
  expect(got.bulkAtTemperaturePerHour * HOURS_PER_DAY).toBeCloseTo(perDay, 3)
})

test.each([
  // kJ/mol, factors to 20 °C at 5, 10, 15, 25, 30, 40, 50, 60 °C
  [40, [0.413, 0.56, 0.752, 1.317, 1.718, 2.852, 4.588, 7.174]],
  [55, [0.296, 0.451, 0.676, 1.46, 2.105, 4.226, 8.124, 15.02]],
  [70.4, [0.211, 0.361, 0.606, 1.623, 2.593, 6.326, 14.61, 32.07]],
] as const)('activation of %d kJ/mol', (activationKJPerMol, factors) => {
  for (const [i, temperatureC] of [5, 10, 15, 25, 30, 40, 50, 60].entries()) {
    const got = residualDecay({ ...bottle, hours: 0, bulkPerHour: 1, temperatureC, activationKJPerMol })
    expect(Math.abs(got.bulkAtTemperaturePerHour / (factors[i] ?? 0) - 1)).toBeLessThan(2e-3)
  }
})

test('1.1 for each degree is 2.594 for ten, as 70.4 kJ/mol between 20 and 30 °C', () => {
  const at30 = { ...bottle, hours: 0, bulkPerHour: 1, temperatureC: 30 }
  expect(residualDecay(at30).bulkAtTemperaturePerHour).toBeCloseTo(2.594, 3)
  expect(residualDecay({ ...at30, activationKJPerMol: 70.4 }).bulkAtTemperaturePerHour).toBeCloseTo(2.594, 2)
})

test.each([
  // per day, m/day, overall per day, left
  ['bulk alone', 1, 0, 1.0, 0.99617],
  ['bulk and wall', 1, 0.3, 23.866, 0.91241],
  ['wall limited by transport', 0, 100, 30.366, 0.88992],
])('13 mm, 50 m, 0.02 L/s at 20 °C: %s', (_, bulkPerDay, wallMPerDay, overallPerDay, left) => {
  const got = residualDecay({
    startMgPerL: 1,
    hours: 5.5305 / 60,
    bulkPerHour: bulkPerDay / HOURS_PER_DAY,
    wallMPerHour: wallMPerDay / HOURS_PER_DAY,
    boreMm: 13,
    lengthM: 50,
    flowLPerMin: 1.2,
    temperatureC: 20,
    referenceC: 20,
    standingSherwood: 3.65,
  })
  // The engine takes a viscosity of 1.0219 mm²/s, water has 1.0034: under 0.1 % of the Sherwood number.
  expect(Math.abs((got.overallPerHour * HOURS_PER_DAY) / overallPerDay - 1)).toBeLessThan(2e-3)
  expect(Math.abs(got.residualMgPerL - left)).toBeLessThan(2e-4)
})

test('leaving the film out overstates the loss: 93 or 30 769 for 24 or 30 per day', () => {
  const wall = (wallMPerDay: number) =>
    residualDecay({ ...bottle, hours: 1, bulkPerHour: 0, boreMm: 13, wallMPerHour: wallMPerDay / HOURS_PER_DAY })
  expect(wall(0.3).wallWithoutFilmPerHour * HOURS_PER_DAY).toBeCloseTo(92.3, 1)
  expect(wall(100).wallWithoutFilmPerHour * HOURS_PER_DAY).toBeCloseTo(30_769, 0)
})

test.each([
  // Sherwood, limits per day in bores of 10, 13, 20 and 26 mm, half-lives h
  [3.65, [15.24, 9.02, 3.81, 2.25], [1.09, 1.85, 4.37, 7.38]],
  [2, [8.35, 4.94, 2.09, 1.24], [1.99, 3.37, 7.97, 13.5]],
] as const)('standing water at the limit of transport, Sherwood %d', (standingSherwood, limits, halfLives) => {
  for (const [i, boreMm] of [10, 13, 20, 26].entries()) {
    const got = residualDecay({ ...bottle, hours: 1, bulkPerHour: 0, boreMm, wallMPerHour: 1e6, standingSherwood })
    // Printed to three digits, the half-lives from a rounded diffusivity: half a last digit of each.
    expect(Math.abs((got.overallPerHour * HOURS_PER_DAY) / (limits[i] ?? 0) - 1)).toBeLessThan(5e-3)
    expect(Math.abs((got.halfLifeHours ?? 0) / (halfLives[i] ?? 0) - 1)).toBeLessThan(5e-3)
  }
})

test('13.7 mm bore, wall of 1 ft/day: film 0.02785 m/day, 7.45 per day in all, 89.0 without the film', () => {
  const got = residualDecay({ ...bottle, hours: 1, bulkPerHour: 0, boreMm: 13.7, wallMPerHour: 0.3048 / HOURS_PER_DAY })
  // Computed with a diffusivity of 1.21e-9 m²/s, 0.2 % above the one used here.
  expect(Math.abs(((got.filmMPerHour ?? 0) * HOURS_PER_DAY) / 0.02785 - 1)).toBeLessThan(3e-3)
  expect(Math.abs((got.wallPerHour * HOURS_PER_DAY) / 7.45 - 1)).toBeLessThan(3e-3)
  expect(got.wallWithoutFilmPerHour * HOURS_PER_DAY).toBeCloseTo(89.0, 1)
})

test('Sherwood number of that pipe is 12.307, laminar at a Reynolds number near 1917', () => {
  const film = wallFilm({ boreMm: 13, temperatureC: 20, flowLPerMin: 1.2, lengthM: 50, standingSherwood: 3.65 })
  expect(film.regime).toBe('laminar')
  expect(Math.abs(film.sherwood / 12.307 - 1)).toBeLessThan(1e-3)
  // Printed for 1.0219 mm²/s.
  expect((film.reynolds * 1.0034) / 1.0219).toBeCloseTo(1917, -1)
})
