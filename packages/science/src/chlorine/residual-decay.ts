import table from '@rillmark/reference/chlorine/decay.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { liquidWaterRangeC } from '../water/liquid-water.ts'
import { bulkFactor } from './bulk-factor.ts'
import { wallFilm } from './wall-film.ts'
import { wallLossPerHour } from './wall-loss.ts'

export interface ResidualDecayInput {
  startMgPerL: number
  hours: number
  bulkPerHour: number
  wallMPerHour: number
  boreMm?: number | undefined
  temperatureC: number
  referenceC: number
  activationKJPerMol?: number | undefined
  flowLPerMin: number
  lengthM?: number | undefined
  standingSherwood: number
}

export interface ResidualDecay {
  residualMgPerL: number
  halfLifeHours?: number
  overallPerHour: number
  bulkAtTemperaturePerHour: number
  wallPerHour: number
  wallWithoutFilmPerHour: number
  filmMPerHour?: number
  regime?: 'standing' | 'laminar' | 'turbulent'
  basis: string
}

const MM_PER_M = 1000
const FIGURES = table.figures

/**
 * The residual left after a time in a pipe or bottle (mg/L) and its half-life (hours).
 * Wanted to tell whether a residual can be there after a night of standing, and whether its absence needs explaining.
 *
 * C = C₀ e^(−K t), K = k_b f(T) + (4/d) k_w k_f / (k_w + k_f); f = 1.1^(T − T₀), or exp[−E/R (1/T − 1/T₀)] where E is given;
 * k_f the film through which chlorine reaches the wall.
 *
 * Special cases: no decay leaves the start and has no half-life. The wall coefficient itself is not changed with
 * temperature; the film is. A film slower than the wall sets the limit. In laminar flow the film is thinner near the start of
 * a pipe, so that pipes given in pieces, each with a start, lose a little more than one of the whole length.
 *
 * @param input start (mg/L), hours, coefficients at the reference temperature (per hour, m/h), bore (mm, where a wall
 * reacts), temperatures 0 to 100 °C, activation (kJ/mol, optional), flow (L/min), length (m), Sherwood of standing water
 * @throws RangeError when a wall reacts and there is no bore
 * @source epanet-2-2
 * @source koechling-1998
 * @example
 * residualDecay({ startMgPerL: 1, hours: 0, bulkPerHour: 0.02, wallMPerHour: 0, temperatureC: 20, referenceC: 20, flowLPerMin: 0, standingSherwood: 3.65 }).residualMgPerL // => 1
 */
export function residualDecay(input: ResidualDecayInput): ResidualDecay {
  const bulkAtTemperaturePerHour = input.bulkPerHour * bulkFactor(input)
  const wall = wallLoss(input)
  const overallPerHour = bulkAtTemperaturePerHour + wall.wallPerHour
  const halfLifeHours = Math.LN2 / overallPerHour
  return {
    residualMgPerL: input.startMgPerL * Math.exp(-overallPerHour * input.hours),
    ...(Number.isFinite(halfLifeHours) ? { halfLifeHours } : {}),
    overallPerHour,
    bulkAtTemperaturePerHour,
    ...wall,
    basis: basisOf(input, wall),
  }
}

type Wall = Pick<ResidualDecay, 'wallPerHour' | 'wallWithoutFilmPerHour' | 'filmMPerHour' | 'regime'>

function wallLoss({ boreMm, wallMPerHour, ...rest }: ResidualDecayInput): Wall {
  if (wallMPerHour === 0) return { wallPerHour: 0, wallWithoutFilmPerHour: 0 }
  if (boreMm === undefined)
    throw new RangeError('Cannot tell what the wall takes because the bore is missing: got undefined')
  const { filmMPerHour, regime } = wallFilm({ ...rest, boreMm })
  const surfacePerM = (4 * MM_PER_M) / boreMm
  return {
    wallPerHour: wallLossPerHour({ boreM: boreMm / MM_PER_M, filmMPerHour, wallMPerHour }),
    wallWithoutFilmPerHour: surfacePerM * wallMPerHour,
    filmMPerHour,
    regime,
  }
}

function basisOf({ activationKJPerMol, standingSherwood, wallMPerHour }: ResidualDecayInput, { regime }: Wall): string {
  const warm =
    activationKJPerMol === undefined
      ? `Bulk decay times ${FIGURES.factorPerK.value} for each degree, found between about 20 and 30 °C`
      : `Bulk decay by an activation energy of ${activationKJPerMol} kJ/mol`
  if (wallMPerHour === 0) return `${warm}; no wall.`
  const still =
    regime === 'standing'
      ? ` Standing water: Sherwood number ${standingSherwood}; sources take ${FIGURES.stillSherwood.value} or ${FIGURES.laminarSherwood.value}, which nearly doubles the loss.`
      : ''
  return `${warm}; wall limited by the film of ${regime} water.${still}`
}

const waterField = (what: string) =>
  field(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper), { what, unit: '°C' })

const input = z
  .strictObject({
    startMgPerL: field(measure.amount(), { what: 'residual at the start', unit: 'mg/L' }),
    hours: field(measure.amount(), { what: 'time', unit: 'h' }),
    bulkPerHour: field(z.number().min(0).max(1e6), {
      what: 'bulk decay at the reference temperature',
      unit: 'per hour',
    }),
    wallMPerHour: field(z.number().min(0).max(1e6).default(0), {
      what: 'wall coefficient; 0 for a bottle',
      unit: 'm/h',
    }),
    boreMm: field(z.number().min(0.5).max(10_000).optional(), {
      what: 'inside diameter; needed where a wall reacts',
      unit: 'mm',
    }),
    temperatureC: waterField('temperature of the water').default(20),
    referenceC: waterField('temperature for which bulk decay is given').default(20),
    activationKJPerMol: field(z.number().min(0).max(300).optional(), {
      what: 'activation energy of bulk decay, instead of a tenth more for each degree; 50 to 80 is usual',
      unit: 'kJ/mol',
    }),
    flowLPerMin: field(measure.amount().default(0), { what: 'flow, 0 for standing water', unit: 'L/min' }),
    lengthM: field(measure.amount().optional(), { what: 'length of the pipe, for laminar flow', unit: 'm' }),
    standingSherwood: field(z.number().min(0.1).max(100).default(FIGURES.laminarSherwood.value), {
      what: 'Sherwood number of standing water: 3.65, or 2 as some engines take',
    }),
  })
  .superRefine(({ boreMm, wallMPerHour }, context) => {
    if (wallMPerHour > 0 && boreMm === undefined)
      context.addIssue(refuse(['boreMm'], 'the bore of the pipe whose wall reacts'))
  })

export const residualDecayCalculation = defineCalculation({
  id: 'residual-decay',
  title: 'Residual after a time',
  purpose:
    'What is left of a disinfectant residual after standing or travelling, by decay in the water and at the wall.',
  formula: {
    text: 'C = C0·e^(−K·t); K = kb·f(T) + (4/d)·kw·kf/(kw + kf); f = 1.1^(T − T0) or Arrhenius; kf = Sh·D/d',
    symbols: {
      C: 'residualMgPerL',
      C0: 'startMgPerL',
      t: 'hours',
      K: 'overallPerHour',
      kb: 'bulkPerHour',
      kw: 'wallMPerHour',
      kf: 'filmMPerHour',
      d: 'boreMm',
      T: 'temperatureC',
      T0: 'referenceC',
      Sh: 'Sherwood number, by how the water moves',
    },
  },
  input,
  output: z.object({
    residualMgPerL: field(z.number(), { what: 'residual at the end', unit: 'mg/L' }),
    halfLifeHours: field(z.number().optional(), { what: 'time to halve; left out where nothing decays', unit: 'h' }),
    overallPerHour: field(z.number(), { what: 'decay in all', unit: 'per hour' }),
    bulkAtTemperaturePerHour: field(z.number(), { what: 'decay in the water, at its temperature', unit: 'per hour' }),
    wallPerHour: field(z.number(), { what: 'decay at the wall, limited by the film', unit: 'per hour' }),
    wallWithoutFilmPerHour: field(z.number(), {
      what: 'what the wall alone would take, were there no film',
      unit: 'per hour',
    }),
    filmMPerHour: field(z.number().optional(), { what: 'film coefficient; left out without a wall', unit: 'm/h' }),
    regime: field(z.enum(['standing', 'laminar', 'turbulent']).optional(), {
      what: 'how the water moves; left out without a wall',
    }),
    basis: field(z.string(), { what: 'which laws, and what is unsure about them' }),
  }),
  sources: sourcesOf('epanet-2-2', 'koechling-1998', 'stokes-einstein', 'iapws-sr6-08', 'si-constants'),
  cautions: [
    'First order, which real residuals follow only roughly: fresh chlorine decays faster, and premise plumbing up to a hundred times faster than mains. Measure.',
    'Chloramine can vanish overnight by nitrification and last longer in hot water: no law of this kind tells that.',
    'Adding disinfectant to a building is treatment: product label, local code, licensed trade.',
  ],
  example: {
    input: {
      startMgPerL: 0.8,
      hours: 8,
      bulkPerHour: 0.02,
      wallMPerHour: 0.0005,
      boreMm: 13,
      temperatureC: 20,
      referenceC: 20,
    },
    output: {
      residualMgPerL: 0.28471180364228366,
      halfLifeHours: 5.36733470406731,
      overallPerHour: 0.12914178428907847,
      bulkAtTemperaturePerHour: 0.02,
      wallPerHour: 0.10914178428907848,
      wallWithoutFilmPerHour: 0.15384615384615385,
      filmMPerHour: 0.001220706,
      regime: 'standing',
      basis:
        'Bulk decay times 1.1 for each degree, found between about 20 and 30 °C; wall limited by the film of standing water. Standing water: Sherwood number 3.65; sources take 2 or 3.65, which nearly doubles the loss.',
    },
  },
  run: residualDecay,
})
