// Time to clear pipes, Reynolds numbers, and what laminar flow leaves behind.
import { clearingTime } from '@rillmark/science/pipes/clearing-time.ts'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const HYDRAULICS: From = 'computed: viscosities of IAPWS R12-08 and IF97, v d / ν'
const LIMIT: From = 'computed: flow at a Reynolds number of 2000'
const CONTENT: From = 'computed: π/4 d² L / Q'
const POISEUILLE: From = 'computed: oracles/chemistry.py, quadrature over the parabolic profile'
const PRINTED = 'printed to a whole number, with a viscosity of four digits'

type Run = { boreMm: number; flowLPerMin: number; temperatureC: number }
const run = ({ boreMm, flowLPerMin, temperatureC }: Run) =>
  clearingTime({ segments: [{ boreMm, lengthM: 1 }], flowLPerMin, turnovers: 1, temperatureC })

// biome-ignore format: a table, one row a line
hold<Run>(
  [
    ['20 mm, 0.20 L/s at 10 °C', { boreMm: 20, flowLPerMin: 12, temperatureC: 10 }, 9747, { share: 2e-4 }, PRINTED, HYDRAULICS],
    ['20 mm, 0.20 L/s at 60 °C', { boreMm: 20, flowLPerMin: 12, temperatureC: 60 }, 26_862, { share: 2e-4 }, PRINTED, HYDRAULICS],
    ['13 mm, 0.07 L/s at 10 °C', { boreMm: 13, flowLPerMin: 4.2, temperatureC: 10 }, 5248, { share: 2e-4 }, PRINTED, HYDRAULICS],
    ['12 mm, 0.07 L/s at 10 °C', { boreMm: 12, flowLPerMin: 4.2, temperatureC: 10 }, 5686, { share: 2e-4 }, PRINTED, HYDRAULICS],
    ['13 mm, 0.01 L/s at 10 °C', { boreMm: 13, flowLPerMin: 0.6, temperatureC: 10 }, 750, { share: 7e-4 }, 'printed to a whole number', HYDRAULICS],
    ['27.3 mm, 0.30 L/s at 60 °C', { boreMm: 27.3, flowLPerMin: 18, temperatureC: 60 }, 29_518, { share: 2e-4 }, PRINTED, HYDRAULICS],
    ['13 mm, 1.60 L/min at 10 °C', { boreMm: 13, flowLPerMin: 1.6, temperatureC: 10 }, 2000, { share: 0.01 }, 'flow printed to 0.01 L/min', LIMIT],
    ['13 mm, 1.23 L/min at 20 °C', { boreMm: 13, flowLPerMin: 1.23, temperatureC: 20 }, 2000, { share: 0.01 }, 'flow printed to 0.01 L/min', LIMIT],
    ['13 mm, 0.58 L/min at 60 °C', { boreMm: 13, flowLPerMin: 0.58, temperatureC: 60 }, 2000, { share: 0.01 }, 'flow printed to 0.01 L/min', LIMIT],
    ['20 mm, 0.89 L/min at 60 °C', { boreMm: 20, flowLPerMin: 0.89, temperatureC: 60 }, 2000, { share: 0.01 }, 'flow printed to 0.01 L/min', LIMIT],
  ],
  (input) => run(input).reynolds[0],
)

// biome-ignore format: a table, one row a line
hold<Run>(
  [
    ['20 mm, 0.20 L/s: m/s', { boreMm: 20, flowLPerMin: 12, temperatureC: 10 }, 0.6366, 5e-5, 'half a last printed digit', HYDRAULICS],
    ['13 mm, 0.07 L/s: m/s', { boreMm: 13, flowLPerMin: 4.2, temperatureC: 10 }, 0.5274, 5e-5, 'half a last printed digit', HYDRAULICS],
    ['13 mm, 0.01 L/s: m/s', { boreMm: 13, flowLPerMin: 0.6, temperatureC: 10 }, 0.0753, 5e-5, 'half a last printed digit', HYDRAULICS],
    ['27.3 mm, 0.30 L/s: m/s', { boreMm: 27.3, flowLPerMin: 18, temperatureC: 60 }, 0.5125, 5e-5, 'half a last printed digit', HYDRAULICS],
    ['13 mm, 0.5 L/min: m/s', { boreMm: 13, flowLPerMin: 0.5, temperatureC: 20 }, 0.0628, 5e-5, 'half a last printed digit', HYDRAULICS],
  ],
  (input) => run(input).segments[0]?.velocityMPerS,
)

// biome-ignore format: a table, one row a line
hold<Parameters<typeof clearingTime>[0]>(
  [
    ['10 m of 20 mm at 6 L/min', { segments: [{ boreMm: 20, lengthM: 10 }], flowLPerMin: 6, turnovers: 1, temperatureC: 20 }, Math.PI * 10, 1e-9, 'arithmetic', CONTENT],
    ['twice over', { segments: [{ boreMm: 20, lengthM: 10 }], flowLPerMin: 6, turnovers: 2, temperatureC: 90 }, Math.PI * 20, 1e-9, 'arithmetic', CONTENT],
    ['by standard and size', { segments: [{ standard: 'en-1057', size: '22x1', lengthM: 9.549297 }], flowLPerMin: 3, turnovers: 1, temperatureC: 20 }, 60, 1e-5, 'length to seven digits', CONTENT],
    ['half a turnover', { segments: [{ boreMm: 10, lengthM: 4 }], flowLPerMin: 1, turnovers: 0.5, temperatureC: 0 }, 3 * Math.PI, 1e-9, 'arithmetic', CONTENT],
    ['nothing to clear', { segments: [{ boreMm: 10, lengthM: 0 }], flowLPerMin: 1e-9, turnovers: 5, temperatureC: 0 }, 0, 0, 'arithmetic', CONTENT],
  ],
  (input) => clearingTime(input).seconds,
)

hold<number>(
  oracle.displaced.map(({ turnovers, old }) => [
    `laminar, ${turnovers} turnovers: old water leaving`,
    turnovers,
    old,
    1e-9,
    'quadrature',
    POISEUILLE,
  ]),
  (turnovers) =>
    clearingTime({ segments: [{ boreMm: 13, lengthM: 5 }], flowLPerMin: 1, turnovers, temperatureC: 20 }).segments[0]
      ?.laminarOldShare,
)
