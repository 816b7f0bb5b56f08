// Properties of liquid water and dry air.
import { airAt } from '@rillmark/science/heat/air.ts'
import { kinematicViscosityMm2PerS } from '@rillmark/science/pipes/viscosity.ts'
import {
  waterDensityKgPerM3,
  waterHeatCapacityJPerKgK,
  waterViscosityMPaS,
} from '@rillmark/science/water/liquid-water.ts'
import oracle from './oracles/water.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const SR6: From = 'seen: IAPWS SR6-08, verification values at 0.1 MPa and 298.15 K, in the tests of an open library'
const DENSER: From = 'seen: IAPWS R12-08, verification values at 298.15 K and 998 kg/m³, in the same tests'
const IF97: From = 'computed: IF97 and R12-08 at 101.325 kPa, with an open library of those releases'
const OWN: From = 'computed: oracles/water.py, IF97 and R12-08 at 101.325 kPa'
const AIR: From = 'memory: U.S. Standard Atmosphere 1976, sea level'
const DIGIT = 'every digit printed'

const properties = (temperatureC: number) => [
  waterDensityKgPerM3(temperatureC),
  waterHeatCapacityJPerKgK(temperatureC) / 1000,
  waterViscosityMPaS(temperatureC),
]

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['density at 25 °C', 0, 997.047013, 5e-7, DIGIT, SR6],
    ['heat capacity at 25 °C', 1, 4.18144618, 5e-9, DIGIT, SR6],
    ['viscosity at 25 °C', 2, 0.889996774, 5e-10, DIGIT, SR6],
    ['viscosity at 25 °C, a little denser', 2, 0.8897351, { share: 3e-4 }, 'that water is 0.1 % denser', DENSER],
  ],
  (which) => properties(25)[which],
)

const BETWEEN = '0.016 kg/m³ is what the two formulations differ by, and half a last digit'

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['density at 5 °C', 5, 999.967, 0.017, BETWEEN, IF97],
    ['density at 10 °C', 10, 999.702, 0.017, BETWEEN, IF97],
    ['density at 20 °C', 20, 998.206, 0.017, BETWEEN, IF97],
    ['density at 30 °C', 30, 995.652, 0.017, BETWEEN, IF97],
    ['density at 37 °C', 37, 993.336, 0.017, BETWEEN, IF97],
    ['density at 40 °C', 40, 992.224, 0.017, BETWEEN, IF97],
    ['density at 50 °C', 50, 988.048, 0.017, BETWEEN, IF97],
    ['density at 55 °C', 55, 985.707, 0.017, BETWEEN, IF97],
    ['density at 60 °C', 60, 983.211, 0.017, BETWEEN, IF97],
    ['density at 70 °C', 70, 977.779, 0.017, BETWEEN, IF97],
    ['density at 80 °C', 80, 971.803, 0.017, BETWEEN, IF97],
  ],
  waterDensityKgPerM3,
)

const REST = [0.0031, 2e-4] as const
const CAPACITY = '0.003 kJ/(kg K) is what the two formulations differ by; two last digits of the viscosity'

// biome-ignore format: a table, one row a line
hold<number>(
  ([
    ['heat capacity and viscosity at 5 °C', 5, [4.2049, 1.5182]],
    ['heat capacity and viscosity at 10 °C', 10, [4.1954, 1.3059]],
    ['heat capacity and viscosity at 20 °C', 20, [4.1848, 1.0016]],
    ['heat capacity and viscosity at 30 °C', 30, [4.18, 0.7972]],
    ['heat capacity and viscosity at 37 °C', 37, [4.1787, 0.6913]],
    ['heat capacity and viscosity at 40 °C', 40, [4.1786, 0.6527]],
    ['heat capacity and viscosity at 50 °C', 50, [4.1796, 0.5465]],
    ['heat capacity and viscosity at 55 °C', 55, [4.1809, 0.5036]],
    ['heat capacity and viscosity at 60 °C', 60, [4.1828, 0.466]],
    ['heat capacity and viscosity at 70 °C', 70, [4.1881, 0.4036]],
    ['heat capacity and viscosity at 80 °C', 80, [4.1955, 0.3541]],
  ] as const).map(([name, at, want]) => [name, at, want.map((each, i) => each / (REST[i] ?? 1)), 1, CAPACITY, IF97]),
  (temperatureC) => properties(temperatureC).slice(1).map((each, i) => each / (REST[i] ?? 1)),
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['kinematic viscosity at 5 °C', 5, 1.5182, 3e-4, 'up to three last digits between formulations', IF97],
    ['kinematic viscosity at 10 °C', 10, 1.3063, 3e-4, 'up to three last digits between formulations', IF97],
    ['kinematic viscosity at 20 °C', 20, 1.0034, 3e-4, 'up to three last digits between formulations', IF97],
    ['kinematic viscosity at 37 °C', 37, 0.6959, 3e-4, 'up to three last digits between formulations', IF97],
    ['kinematic viscosity at 55 °C', 55, 0.5109, 3e-4, 'up to three last digits between formulations', IF97],
    ['kinematic viscosity at 60 °C', 60, 0.474, 3e-4, 'up to three last digits between formulations', IF97],
    ['kinematic viscosity at 80 °C', 80, 0.3643, 3e-4, 'up to three last digits between formulations', IF97],
  ],
  kinematicViscosityMm2PerS,
)

hold<number>(
  oracle.liquid.map(({ celsius, density }) => [`density at ${celsius} °C`, celsius, density, 0.017, BETWEEN, OWN]),
  waterDensityKgPerM3,
)

hold<number>(
  oracle.liquid.map(({ celsius, heat }) => [
    `heat capacity at ${celsius} °C`,
    celsius,
    heat / 1000,
    0.0031,
    CAPACITY,
    OWN,
  ]),
  (temperatureC) => waterHeatCapacityJPerKgK(temperatureC) / 1000,
)

hold<number>(
  oracle.liquid.map(({ celsius, kinematic }) => [
    `kinematic viscosity at ${celsius} °C`,
    celsius,
    kinematic,
    { share: 4e-5 },
    'what the two formulations differ by',
    OWN,
  ]),
  kinematicViscosityMm2PerS,
)

// biome-ignore format: a table, one row a line
hold<'densityKgPerM3' | 'viscosityPaS' | 'conductivityWPerMK' | 'prandtl'>(
  [
    ['air at 288.15 K: density', 'densityKgPerM3', 1.225, 5e-5, 'half a last printed digit', AIR],
    ['air at 288.15 K: viscosity', 'viscosityPaS', 1.7894e-5, 5e-10, 'half a last printed digit', AIR],
    ['air at 288.15 K: conductivity', 'conductivityWPerMK', 0.025326, 5e-7, 'half a last printed digit', AIR],
    ['air at 288.15 K: Prandtl number', 'prandtl', 0.71, 0.005, 'half a last printed digit', AIR],
  ],
  (what) => airAt(288.15)[what],
)
