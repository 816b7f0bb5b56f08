// Heat lost by pipes, and its formula.
// Churchill and Chu 1975 with its check value: seen in an open heat-transfer library, recomputed.
// Bare and insulated copper: a public engineering table, W per metre (seen). Apartment buildings: Hamburg et al.,
// Energies 14 (2021) 6446 (seen). Bare pipe by theory, and insulated pipe of seven kinds: computed independently.
import { pipeHeatLoss } from '@rillmark/science/heat/pipe-heat-loss.ts'
import { cylinderNusselt } from '@rillmark/science/heat/surface-film.ts'
import { expect, test } from 'vitest'

const copper = { wallMm: 0, material: 'copper', insulationMm: 0, surfaceEmissivity: 0.9 }
const still = { ambientC: 20, ...copper }

test('Churchill and Chu: the Rayleigh number is Grashof times Prandtl, and not Grashof', () => {
  expect(cylinderNusselt({ rayleigh: 0.69 * 2.63e9, prandtl: 0.69 })).toBeCloseTo(139.13493970073597, 9)
  expect(cylinderNusselt({ rayleigh: 2.63e9, prandtl: 0.69 })).toBeCloseTo(156.49, 2)
})

const BARE: [number, number[], number[], number[]][] = [
  // mm, published W/m at 22, 38, 55 K; theory with emissivity 0.9; theory with 0.05
  [15, [21, 32, 45], [13.2, 25.3, 39.9], [7.6, 14.8, 23.3]],
  [22, [28, 43, 60], [18.3, 35.1, 55.4], [10.1, 19.7, 31.0]],
  [28, [34, 53, 76], [22.6, 43.4, 68.4], [12.1, 23.7, 37.4]],
  [35, [41, 64, 89], [27.5, 52.9, 83.5], [14.4, 28.3, 44.8]],
  [42, [47, 74, 104], [32.4, 62.3, 98.4], [16.6, 32.8, 51.9]],
  [54, [59, 93, 131], [40.7, 78.3, 123.7], [20.4, 40.4, 64.0]],
  [67, [71, 111, 156], [49.6, 95.5, 150.9], [24.4, 48.4, 76.8]],
  [76, [83, 129, 181], [55.7, 107.3, 169.7], [27.2, 53.9, 85.6]],
  [108, [107, 165, 232], [77.3, 149.0, 235.8], [36.8, 73.2, 116.3]],
]
const DIFFERENCES_K = [22, 38, 55]

test.each(BARE)('bare copper of %d mm', (outsideDiameterMm, published, dull, bright) => {
  for (const [at, differenceK] of DIFFERENCES_K.entries()) {
    const loss = (surfaceEmissivity: number) =>
      pipeHeatLoss({ ...still, outsideDiameterMm, surfaceEmissivity, waterC: 20 + differenceK }).wattsPerM
    // Computed independently, printed to 0.1 W/m.
    expect(Math.abs(loss(0.9) - (dull[at] ?? 0))).toBeLessThan(0.16)
    expect(Math.abs(loss(0.05) - (bright[at] ?? 0))).toBeLessThan(0.16)
    // The published table does not state its emissivity or draught and lies above still air, most at small
    // differences: up to 60 % at 22 K, 30 % at 38 K, 15 % at 55 K; never more than 2 % below.
    const ratio = (published[at] ?? 0) / loss(0.9)
    expect(ratio).toBeGreaterThan(0.98)
    expect(ratio).toBeLessThan([1.6, 1.3, 1.15][at] ?? 0)
    expect(loss(0.05) / loss(0.9)).toBeLessThan(0.6)
  }
})

test.each([
  // mm, published W/m for 25 mm of insulation at 55 K
  [22, 8],
  [28, 10],
  [42, 11.5],
  [54, 14.5],
  [67, 16],
  [76, 19],
])('insulated copper of %d mm: the table fits a conductivity of 0.030, not the 0.043 it states', (mm, published) => {
  const at = (insulationConductivityWPerMK: number) =>
    pipeHeatLoss({ ...still, outsideDiameterMm: mm, insulationMm: 25, insulationConductivityWPerMK, waterC: 75 })
      .wattsPerM
  // The table is rounded to a half watt and uneven between sizes: 10 %.
  expect(Math.abs(at(0.03) / published - 1)).toBeLessThan(0.1)
  expect(at(0.043) / published).toBeGreaterThan(1.2)
})

const COATS = [
  [0, 0.04],
  [9, 0.04],
  [13, 0.04],
  [20, 0.035],
  [30, 0.035],
] as const

test.each([
  // material, outside mm, wall mm; W/(m K) for each coat, water 60 in air of 22 °C
  ['copper', 15, 1, [0.672, 0.244, 0.207, 0.152, 0.127]],
  ['copper', 22, 1, [0.932, 0.314, 0.262, 0.188, 0.155]],
  ['copper', 28, 1.5, [1.151, 0.373, 0.308, 0.218, 0.177]],
  ['pex', 16, 2, [0.639, 0.246, 0.209, 0.154, 0.129]],
  ['pex', 20, 2.8, [0.745, 0.282, 0.238, 0.174, 0.144]],
  ['pp-r', 25, 3.5, [0.807, 0.317, 0.267, 0.194, 0.16]],
  ['steel', 21.3, 2.65, [0.906, 0.307, 0.257, 0.185, 0.152]],
] as const)('%s of %d x %d mm, bare and wrapped', (material, outsideDiameterMm, wallMm, published) => {
  for (const [at, [insulationMm, insulationConductivityWPerMK]] of COATS.entries()) {
    const pipe = { ...still, material, outsideDiameterMm, wallMm, insulationMm, insulationConductivityWPerMK }
    // Printed to 0.001.
    expect(
      Math.abs(pipeHeatLoss({ ...pipe, waterC: 60, ambientC: 22 }).overallWPerMK - (published[at] ?? 0)),
    ).toBeLessThan(6e-4)
  }
})

test('apartment buildings with 40 mm of insulation lose 5.1 W/m in shafts and 10.8 in cellars', () => {
  const clean = (outsideDiameterMm: number, ambientC: number) =>
    pipeHeatLoss({
      ...copper,
      outsideDiameterMm,
      ambientC,
      waterC: 57.5,
      insulationMm: 40,
      insulationConductivityWPerMK: 0.04,
    }).wattsPerM
  // Shafts of 30 °C: the mean over pipes of 22 to 54 mm lies within what they lose.
  expect(clean(22, 30)).toBeLessThan(5.1)
  expect(clean(54, 30)).toBeGreaterThan(5.1)
  // Cellars of 21 °C: measured is above every clean pipe, for valves and supports were bare: 15 to 95 % more.
  expect(10.8 / clean(54, 21)).toBeGreaterThan(1.1)
  expect(10.8 / clean(22, 21)).toBeLessThan(2)
})

test('film coefficients are those the independent calculation found: 12.7 to 14.3 bare, 8.1 to 10.0 wrapped', () => {
  const film = (insulationMm: number, outsideDiameterMm: number) => {
    const coat = { insulationMm, insulationConductivityWPerMK: insulationMm === 9 ? 0.04 : 0.035 }
    const got = pipeHeatLoss({ ...still, ...coat, outsideDiameterMm, waterC: 60, ambientC: 22 })
    return got.convectionWPerM2K + got.radiationWPerM2K
  }
  expect(film(0, 15)).toBeCloseTo(14.3, 0)
  expect(film(0, 28)).toBeGreaterThan(12.6)
  expect(film(9, 15)).toBeLessThan(10.1)
  expect(film(30, 28)).toBeGreaterThan(8)
})
