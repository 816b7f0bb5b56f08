// The estimator against certified values of nonlinear regression. With no priors and standard deviation 1 the covariance times the residual
// variance gives the certified standard deviations.
import type { FitParameter } from '@rillmark/science/estimation/fit-problem.ts'
import { regularisedFit } from '@rillmark/science/estimation/regularised-fit.ts'
import { hold, type Row } from './rows.ts'

interface Data {
  x: readonly number[]
  y: readonly number[]
  model: (b: readonly number[], x: number) => number
}
interface Case {
  data: Data
  start: readonly number[]
  /** Which certified figures are asked for. */
  of: 'values' | 'standard deviations' | 'residual sum of squares'
}

const MISRA1A: Data = {
  x: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
  y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
  model: ([b1 = 0, b2 = 0], x) => b1 * (1 - Math.exp(-b2 * x)),
}
const THURBER: Data = {
  x: [
    -3.067, -2.981, -2.921, -2.912, -2.84, -2.797, -2.702, -2.699, -2.633, -2.481, -2.363, -2.322, -1.501, -1.46,
    -1.274, -1.212, -1.1, -1.046, -0.915, -0.714, -0.566, -0.545, -0.4, -0.309, -0.109, -0.103, 0.01, 0.119, 0.377,
    0.79, 0.963, 1.006, 1.115, 1.572, 1.841, 2.047, 2.2,
  ],
  y: [
    80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101, 92.405, 95.854, 100.696, 101.06, 401.672, 390.724,
    567.534, 635.316, 733.054, 759.087, 894.206, 990.785, 1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514,
    1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962, 1464.35, 1468.705, 1447.894, 1457.628,
  ],
  model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0], x) =>
    (b1 + x * (b2 + x * (b3 + x * b4))) / (1 + x * (b5 + x * (b6 + x * b7))),
}
const ROSZMAN1: Data = {
  x: [
    -4868.68, -4868.09, -4867.41, -3375.19, -3373.14, -3372.03, -2473.74, -2472.35, -2469.45, -1894.65, -1893.4,
    -1497.24, -1495.85, -1493.41, -1208.68, -1206.18, -1206.04, -997.92, -996.61, -996.31, -834.94, -834.66, -710.03,
    -530.16, -464.17,
  ],
  y: [
    0.252429, 0.252141, 0.251809, 0.297989, 0.296257, 0.295319, 0.339603, 0.337731, 0.33382, 0.38951, 0.386998,
    0.438864, 0.434887, 0.427893, 0.471568, 0.461699, 0.461144, 0.513532, 0.506641, 0.505062, 0.535648, 0.533726,
    0.568064, 0.612886, 0.624169,
  ],
  model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0], x) => b1 - b2 * x - Math.atan(b3 / (x - b4)) / Math.PI,
}

const COPY = 'seen: NIST StRD, nonlinear regression, certified values, as copied in two public repositories that agree'
const FILE = 'seen: NIST StRD, file Roszman1.dat'
const DIGITS = 'slopes by differences leave six digits of the values and four of their deviations'
const SQUARES = 'flat at its lowest point: more digits than the values'
const SIX = { share: 2e-6 }
const FOUR = { share: 2e-4 }
const THURBER_VALUES = [
  1288.13968, 1491.0792535, 583.23836877, 75.416644291, 0.96629502864, 0.39797285797, 0.049727297349,
]
const THURBER_SDS = [
  4.6647963344, 39.571156086, 28.698696102, 5.567537027, 0.031333340687, 0.014984928198, 0.0065842344623,
]
const FAR = [1000, 1000, 400, 40, 0.7, 0.3, 0.03]
const NEAR = [1300, 1500, 500, 75, 1, 0.4, 0.05]

// biome-ignore format: a table, one row a line
const rows: readonly Row<Case, number | readonly number[]>[] = [
  ['Misra1a from its first start', { data: MISRA1A, start: [500, 1e-4], of: 'values' }, [238.94212918, 5.5015643181e-4], SIX, DIGITS, COPY],
  ['Misra1a from its second start', { data: MISRA1A, start: [250, 5e-4], of: 'values' }, [238.94212918, 5.5015643181e-4], SIX, DIGITS, COPY],
  ['Misra1a, deviations', { data: MISRA1A, start: [250, 5e-4], of: 'standard deviations' }, [2.7070075241, 7.2668688436e-6], FOUR, DIGITS, COPY],
  ['Misra1a, squares', { data: MISRA1A, start: [250, 5e-4], of: 'residual sum of squares' }, 0.12455138894, { share: 1e-8 }, SQUARES, COPY],
  ['Thurber from its first start', { data: THURBER, start: FAR, of: 'values' }, THURBER_VALUES, SIX, DIGITS, COPY],
  ['Thurber from its second start', { data: THURBER, start: NEAR, of: 'values' }, THURBER_VALUES, SIX, DIGITS, COPY],
  ['Thurber, deviations', { data: THURBER, start: NEAR, of: 'standard deviations' }, THURBER_SDS, FOUR, DIGITS, COPY],
  ['Thurber, squares', { data: THURBER, start: NEAR, of: 'residual sum of squares' }, 5642.7082397, { share: 1e-8 }, SQUARES, COPY],
  ['Roszman1 from its first start', { data: ROSZMAN1, start: [0.1, -1e-5, 1000, -100], of: 'values' }, [0.20196866396, -6.1953516256e-6, 1204.4556708, -181.34269537], SIX, DIGITS, FILE],
  ['Roszman1, deviations', { data: ROSZMAN1, start: [0.2, -5e-6, 1200, -150], of: 'standard deviations' }, [0.019172666023, 3.2058931691e-6, 74.050983057, 49.573513849], FOUR, DIGITS, FILE],
]

hold(rows, ({ data, start, of }) => {
  const fit = regularisedFit({
    parameters: start.map((value, j): FitParameter => ({ id: `b${j + 1}`, scale: 'linear', start: value })),
    readings: data.y.map((value) => ({ value, sd: 1 })),
    model: (b) => data.x.map((x) => data.model(b, x)),
    loss: { kind: 'squares' },
    tolerance: 1e-20,
    mostRuns: 5000,
    differenceStep: 1e-6,
  })
  if (of === 'values') return fit.parameters.map(({ value }) => value)
  if (of === 'residual sum of squares') return 2 * fit.misfit
  const variance = (2 * fit.misfit) / (data.y.length - start.length)
  return fit.parameters.map(({ sd }) => sd * Math.sqrt(variance))
})
