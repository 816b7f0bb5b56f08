// Decay of a residual in water and at the wall.
import { type ResidualDecayInput, residualDecay } from '@rillmark/science/chlorine/residual-decay.ts'
import { wallFilm } from '@rillmark/science/chlorine/wall-film.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const HOURS_PER_DAY = 24
const FIRST: From = 'computed: first-order decay, C = C0 exp(-kt)'
const KOECHLING: From = 'computed: Koechling 1998, 1.1 for each degree (factor seen, as cited in the EPANET 2.2 manual)'
const ARRHENIUS: From = 'computed: exp[-E/R (1/T - 1/293.15)]'
const ENGINE: From =
  'computed: EPANET 2.3.5, 1 s quality step, and the formulas of the EPANET 2.2 manual, chapter 12 (seen)'
const MANUAL: From = 'computed: formulas of the EPANET 2.2 manual, chapter 12 (seen), diffusivity 1.2077e-9 m²/s'
const ROUND: From = 'computed: the same formulas with a diffusivity of 1.21e-9 m²/s'
const SCIPY: From = 'computed: oracles/chemistry.py'
const PRINTED = 'half a last printed digit'

const bottle = { startMgPerL: 1, hours: 1, bulkPerHour: 0, wallMPerHour: 0, temperatureC: 20, referenceC: 20 }
const still = { ...bottle, flowLPerMin: 0, standingSherwood: 3.65 }
const run = (input: Partial<ResidualDecayInput>) => residualDecay({ ...still, ...input })

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['0.05 per day: left after 8 and 24 h', 0.05, [0.9835, 0.9512], 6e-5, PRINTED, FIRST],
    ['0.1 per day: left after 8 and 24 h', 0.1, [0.9672, 0.9048], 6e-5, PRINTED, FIRST],
    ['0.25 per day: left after 8 and 24 h', 0.25, [0.92, 0.7788], 6e-5, PRINTED, FIRST],
    ['0.5 per day: left after 8 and 24 h', 0.5, [0.8465, 0.6065], 6e-5, PRINTED, FIRST],
    ['1 per day: left after 8 and 24 h', 1, [0.7165, 0.3679], 6e-5, PRINTED, FIRST],
    ['2 per day: left after 8 and 24 h', 2, [0.5134, 0.1353], 6e-5, PRINTED, FIRST],
    ['5 per day: left after 8 and 24 h', 5, [0.1889, 0.0067], 6e-5, PRINTED, FIRST],
  ],
  (perDay) => [8, 24].map((hours) => run({ hours, bulkPerHour: perDay / HOURS_PER_DAY }).residualMgPerL),
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['0.05 per day: half-life', 0.05, 332.7, 0.05, PRINTED, FIRST],
    ['0.1 per day: half-life', 0.1, 166.4, 0.05, PRINTED, FIRST],
    ['0.25 per day: half-life', 0.25, 66.5, 0.05, PRINTED, FIRST],
    ['0.5 per day: half-life', 0.5, 33.27, 0.005, PRINTED, FIRST],
    ['1 per day: half-life', 1, 16.64, 0.005, PRINTED, FIRST],
    ['2 per day: half-life', 2, 8.32, 0.005, PRINTED, FIRST],
    ['5 per day: half-life', 5, 3.33, 0.005, PRINTED, FIRST],
    ['0.0347 per hour: half-life', 0.0347 * HOURS_PER_DAY, 20.0, 0.05, PRINTED, FIRST],
    ['72 per day: half-life', 72, 13.9 / 60, 0.05 / 60, PRINTED, FIRST],
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

const WARMTH = [5, 10, 15, 25, 30, 40, 50, 60]
const LAST = 'half a last digit of the third or fourth printed'

// biome-ignore format: a table, one row a line
hold<number | undefined>(
  [
    ['40 kJ/mol', 40, [0.413, 0.56, 0.752, 1.317, 1.718, 2.852, 4.588, 7.174], { share: 2e-3 }, LAST, ARRHENIUS],
    ['55 kJ/mol', 55, [0.296, 0.451, 0.676, 1.46, 2.105, 4.226, 8.124, 15.02], { share: 2e-3 }, LAST, ARRHENIUS],
    ['70.4 kJ/mol', 70.4, [0.211, 0.361, 0.606, 1.623, 2.593, 6.326, 14.61, 32.07], { share: 2e-3 }, LAST, ARRHENIUS],
    ['1.1 for each degree', undefined, [0.239, 0.386, 0.621, 1.611, 2.594, 6.727, 17.45, 45.26], { share: 2e-3 }, LAST, KOECHLING],
  ],
  (activationKJPerMol) =>
    WARMTH.map((temperatureC) => run({ temperatureC, activationKJPerMol, bulkPerHour: 1 }).bulkAtTemperaturePerHour),
)

const PIPE = { boreMm: 13, lengthM: 50, flowLPerMin: 1.2, hours: 5.5305 / 60 }
const perDay = (bulk: number, wall: number) => ({
  ...PIPE,
  bulkPerHour: bulk / HOURS_PER_DAY,
  wallMPerHour: wall / HOURS_PER_DAY,
})
const VISCOSITY = 'the engine takes a viscosity of 1.0219 mm²/s, water has 1.0034: up to 0.1 % of the Sherwood number'

// biome-ignore format: a table, one row a line
hold<Partial<ResidualDecayInput>>(
  [
    ['13 mm, 50 m, 0.02 L/s, bulk alone: per day', perDay(1, 0), 1, { share: 1e-12 }, 'no film in it', ENGINE],
    ['the same, bulk and wall', perDay(1, 0.3), 23.866, { share: 1e-3 }, VISCOSITY, ENGINE],
    ['the same, wall limited by transport', perDay(0, 100), 30.366, { share: 1e-3 }, VISCOSITY, ENGINE],
  ],
  (input) => run(input).overallPerHour * HOURS_PER_DAY,
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

const BORES = [10, 13, 20, 26]
const ROUNDED = 'printed to three digits'
const greedy = (standingSherwood: number) => BORES.map((boreMm) => run({ boreMm, wallMPerHour: 1e6, standingSherwood }))

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['trap: standing, Sherwood 3.65, bores of 10 to 26 mm: per day', 3.65, [15.24, 9.02, 3.81, 2.25], { share: 2e-3 }, ROUNDED, MANUAL],
    ['trap: standing, Sherwood 2, bores of 10 to 26 mm: per day', 2, [8.35, 4.94, 2.09, 1.24], { share: 5e-3 }, 'printed to three digits; the last is 1.235 and was rounded up', MANUAL],
  ],
  (sherwood) => greedy(sherwood).map((each) => each.overallPerHour * HOURS_PER_DAY),
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['standing, Sherwood 3.65: half-lives', 3.65, [1.09, 1.85, 4.37, 7.38], { share: 5e-3 }, ROUNDED, MANUAL],
    ['standing, Sherwood 2: half-lives', 2, [1.99, 3.37, 7.97, 13.5], { share: 5e-3 }, ROUNDED, MANUAL],
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
