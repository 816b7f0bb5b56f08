// Properties of liquid water and dry air.
// IAPWS SR6-08, verification values at 0.1 MPa, 298.15 and 375 K; IAPWS R12-08 and R15-11 at 298.15 K and 998 kg/m³:
// seen, as quoted in the tests of an open library of those releases.
// IF97 density, heat capacity, viscosity and conductivity at 101.325 kPa: computed with that library.
// U.S. Standard Atmosphere 1976 at sea level: memory.
import { airAt } from '@rillmark/science/heat/air.ts'
import {
  waterConductivityWPerMK,
  waterDensityKgPerM3,
  waterHeatCapacityJPerKgK,
  waterViscosityMPaS,
} from '@rillmark/science/water/liquid-water.ts'
import { kinematicViscosityMm2PerS } from '@rillmark/science/pipes/viscosity.ts'
import { expect, test } from 'vitest'

test('IAPWS SR6-08 at 298.15 K, to every digit printed', () => {
  expect(waterDensityKgPerM3(25).toFixed(6)).toBe('997.047013')
  expect((waterHeatCapacityJPerKgK(25) / 1000).toFixed(8)).toBe('4.18144618')
  expect((waterViscosityMPaS(25) * 1000).toFixed(6)).toBe('889.996774')
  expect(waterConductivityWPerMK(25).toFixed(9)).toBe('0.606502308')
})

test('IAPWS R12-08 and R15-11 at 298.15 K and 998 kg/m³, a little denser: within 0.03 % and 0.2 %', () => {
  expect(Math.abs(waterViscosityMPaS(25) / 0.8897351 - 1)).toBeLessThan(3e-4)
  expect(Math.abs(waterConductivityWPerMK(25) / 0.607712868 - 1)).toBeLessThan(2.1e-3)
})

test.each([
  // °C, kg/m³, kJ/(kg K), mPa s, W/(m K)
  [5, 999.967, 4.2049, 1.5182, 0.5678],
  [10, 999.702, 4.1954, 1.3059, 0.5788],
  [20, 998.206, 4.1848, 1.0016, 0.598],
  [30, 995.652, 4.18, 0.7972, 0.6144],
  [37, 993.336, 4.1787, 0.6913, 0.6245],
  [40, 992.224, 4.1786, 0.6527, 0.6285],
  [50, 988.048, 4.1796, 0.5465, 0.6406],
  [55, 985.707, 4.1809, 0.5036, 0.646],
  [60, 983.211, 4.1828, 0.466, 0.651],
  [70, 977.779, 4.1881, 0.4036, 0.6598],
  [80, 971.803, 4.1955, 0.3541, 0.667],
])('IF97 at %d °C', (temperatureC, density, heat, viscosity, conductivity) => {
  // 0.016 kg/m³ and 0.003 kJ/(kg K) are what the two formulations differ by; the last digit printed for the others.
  expect(Math.abs(waterDensityKgPerM3(temperatureC) - density)).toBeLessThan(0.017)
  expect(Math.abs(waterHeatCapacityJPerKgK(temperatureC) / 1000 - heat)).toBeLessThan(0.0031)
  expect(Math.abs(waterViscosityMPaS(temperatureC) - viscosity)).toBeLessThan(0.0002)
  expect(Math.abs(waterConductivityWPerMK(temperatureC) - conductivity)).toBeLessThan(0.0002)
})

test.each([
  [5, 1.5182],
  [10, 1.3063],
  [20, 1.0034],
  [37, 0.6959],
  [55, 0.5109],
  [60, 0.474],
  [80, 0.3643],
])('kinematic viscosity at %d °C', (temperatureC, published) => {
  expect(Math.abs(kinematicViscosityMm2PerS(temperatureC) - published)).toBeLessThan(0.0003)
})

test('dry air at 288.15 K', () => {
  const air = airAt(288.15)
  expect(air.densityKgPerM3).toBeCloseTo(1.225, 4)
  expect(air.viscosityPaS * 1e5).toBeCloseTo(1.7894, 4)
  expect(air.conductivityWPerMK).toBeCloseTo(0.025326, 6)
  expect(air.prandtl).toBeCloseTo(0.71, 2)
})
