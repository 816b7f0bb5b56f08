// Decay of a residual in water and at the wall.
import { type ResidualDecayInput, residualDecay } from '@rillmark/science/chlorine/residual-decay.ts'
import { wallFilm } from '@rillmark/science/chlorine/wall-film.ts'
import { expect, test } from 'vitest'
import {
  BORES_MM,
  ENGINE,
  FIRST_ORDER,
  KOECHLING,
  LEFT_AFTER_8_AND_24_H,
  MANUAL,
  OVERALL_PER_DAY,
  PRINTED,
  STANDING_PER_DAY,
  THREE_DIGITS,
  TIMES_THE_RATE_AT_20_C,
  VISCOSITY,
  WARMTH_C,
} from './decay-rows.ts'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const HOURS_PER_DAY = 24
const ROUND: From = 'computed: the same formulas with a diffusivity of 1.21e-9 m²/s'
const SCIPY: From = 'computed: oracles/chemistry.py'

const bottle = { startMgPerL: 1, hours: 1, bulkPerHour: 0, wallMPerHour: 0, temperatureC: 20, referenceC: 20 }
const still = { ...bottle, flowLPerMin: 0, standingSherwood: 3.65 }
const run = (input: Partial<ResidualDecayInput>) => residualDecay({ ...still, ...input })

hold(LEFT_AFTER_8_AND_24_H, (perDay) =>
  [8, 24].map((hours) => run({ hours, bulkPerHour: perDay / HOURS_PER_DAY }).residualMgPerL),
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['0.05 per day: half-life', 0.05, 332.7, 0.05, PRINTED, FIRST_ORDER],
    ['0.1 per day: half-life', 0.1, 166.4, 0.05, PRINTED, FIRST_ORDER],
    ['0.25 per day: half-life', 0.25, 66.5, 0.05, PRINTED, FIRST_ORDER],
    ['0.5 per day: half-life', 0.5, 33.27, 0.005, PRINTED, FIRST_ORDER],
    ['1 per day: half-life', 1, 16.64, 0.005, PRINTED, FIRST_ORDER],
    ['2 per day: half-life', 2, 8.32, 0.005, PRINTED, FIRST_ORDER],
    ['5 per day: half-life', 5, 3.33, 0.005, PRINTED, FIRST_ORDER],
    ['0.0347 per hour: half-life', 0.0347 * HOURS_PER_DAY, 20.0, 0.05, PRINTED, FIRST_ORDER],
    ['72 per day: half-life', 72, 13.9 / 60, 0.05 / 60, PRINTED, FIRST_ORDER],
  ],
  (perDay) => run({ bulkPerHour: perDay / HOURS_PER_DAY }).halfLifeHours,
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['0.5 per day at 20 °C is that at 10 °C', 10, 0.193, 5e-4, PRINTED, KOECHLING],
    ['0.5 per day at 20 °C is that at 30 °C', 30, 1.297, 5e-4, PRINTED, KOECHLING],
    ['0.5 per day at 20 °C is that at 40 °C', 40, 3.364, 5e-4, PRINTED, KOECHLING],
  ],
  (temperatureC) => 24 * run({ temperatureC, bulkPerHour: 0.5 / HOURS_PER_DAY }).bulkAtTemperaturePerHour,
)

hold(TIMES_THE_RATE_AT_20_C, (activationKJPerMol) =>
  WARMTH_C.map((temperatureC) => run({ temperatureC, activationKJPerMol, bulkPerHour: 1 }).bulkAtTemperaturePerHour),
)

const PIPE = { boreMm: 13, lengthM: 50, flowLPerMin: 1.2, hours: 5.5305 / 60 }
const perDay = (bulk: number, wall: number) => ({
  ...PIPE,
  bulkPerHour: bulk / HOURS_PER_DAY,
  wallMPerHour: wall / HOURS_PER_DAY,
})

hold(
  OVERALL_PER_DAY,
  ({ bulkPerDay, wallMPerDay }) => run(perDay(bulkPerDay, wallMPerDay)).overallPerHour * HOURS_PER_DAY,
)

// biome-ignore format: a table, one row a line
hold<Partial<ResidualDecayInput>>(
  [
    ['13 mm, 50 m, 0.02 L/s, bulk alone: left', perDay(1, 0), 0.99617, 6e-6, PRINTED, ENGINE],
    ['the same, bulk and wall', perDay(1, 0.3), 0.91241, 1e-4, VISCOSITY, ENGINE],
    ['the same, wall limited by transport', perDay(0, 100), 0.88992, 1e-4, VISCOSITY, ENGINE],
  ],
  (input) => run(input).residualMgPerL,
)

const greedy = (standingSherwood: number) =>
  BORES_MM.map((boreMm) => run({ boreMm, wallMPerHour: 1e6, standingSherwood }))

hold(STANDING_PER_DAY, (sherwood) => greedy(sherwood).map((each) => each.overallPerHour * HOURS_PER_DAY))

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['standing, Sherwood 3.65: half-lives', 3.65, [1.09, 1.85, 4.37, 7.38], { share: 5e-3 }, THREE_DIGITS, MANUAL],
    ['standing, Sherwood 2: half-lives', 2, [1.99, 3.37, 7.97, 13.5], { share: 5e-3 }, THREE_DIGITS, MANUAL],
  ],
  (sherwood) => greedy(sherwood).map((each) => each.halfLifeHours),
)

const FOOT_PER_DAY = { boreMm: 13.7, wallMPerHour: 0.3048 / HOURS_PER_DAY }

// biome-ignore format: a table, one row a line
hold<'filmMPerHour' | 'wallPerHour' | 'wallWithoutFilmPerHour'>(
  [
    ['13.7 mm, wall of 1 ft/day: film, m/day', 'filmMPerHour', 0.02785, { share: 3e-3 }, 'a diffusivity 0.2 % higher', ROUND],
    ['13.7 mm, wall of 1 ft/day: in all, per day', 'wallPerHour', 7.45, { share: 3e-3 }, 'a diffusivity 0.2 % higher', ROUND],
    ['trap: without the film, per day', 'wallWithoutFilmPerHour', 89.0, 0.05, PRINTED, ROUND],
  ],
  (what) => (run(FOOT_PER_DAY)[what] ?? 0) * HOURS_PER_DAY,
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['trap: 13 mm, 0.3 m/day, the film left out: per day', 0.3, 92.3, 0.05, PRINTED, MANUAL],
    ['trap: 13 mm, 100 m/day, the film left out: per day', 100, 30_769, 0.5, PRINTED, MANUAL],
  ],
  (wall) => run({ boreMm: 13, wallMPerHour: wall / HOURS_PER_DAY }).wallWithoutFilmPerHour * HOURS_PER_DAY,
)

const film = () => wallFilm({ boreMm: 13, temperatureC: 20, flowLPerMin: 1.2, lengthM: 50, standingSherwood: 3.65 })

// biome-ignore format: a table, one row a line
hold<'sherwood' | 'reynolds'>(
  [
    ['Sherwood number of that pipe', 'sherwood', 12.307, { share: 1e-3 }, VISCOSITY, MANUAL],
    ['its Reynolds number, at the viscosity of water', 'reynolds', (1917 * 1.0219) / 1.0034, 1, 'printed to a whole number', MANUAL],
  ],
  (what) => film()[what],
)

hold<Partial<ResidualDecayInput>>(
  oracle.decay.map(({ name, input, left }) => [
    name,
    input,
    left,
    { share: 1e-4 },
    'viscosities of the two formulations differ by 3e-5, over a few e-foldings',
    SCIPY,
  ]),
  (input) => run(input).residualMgPerL,
)

test('standing water says that sources take another Sherwood number', () => {
  expect(run({ boreMm: 13, wallMPerHour: 0.01 }).basis).toContain('sources take 2 or 3.65')
})
