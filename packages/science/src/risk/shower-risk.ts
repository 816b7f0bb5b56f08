import table from '@rillmark/reference/risk/shower.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation, type RunOptions } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { seededRandom } from '../random/random-source.ts'
import {
  type Concentration,
  concentrationDraws,
  type ConcentrationDraws,
  concentrationField,
  yearsToSimulate,
} from './concentration.ts'
import { rankCorrelation } from './rank-correlation.ts'
import { breathingAges, type Exposure, exposureDraws, type Shower, showerHeads } from './shower-exposure.ts'
import { type Spread, spreadField, SpreadTally } from './spread-tally.ts'

export interface ShowerRiskInput extends Shower {
  cfuPerL?: number | undefined
  distribution?: Concentration | undefined
  perYear: number
  draws: number
  seed: number
}

export interface ShowerRisk {
  dose: Spread
  infectionRisk: { perEvent: Spread; perYear: Spread }
  clinicalSeverityRisk: { perEvent: Spread; perYear: Spread }
  sensitivity: { input: string; rankCorrelation: number }[]
  basis: string
}

/**
 * Dose of Legionella deposited in the lung during a shower (CFU) and the risk that goes with it, a shower and a year, by a seeded Monte
 * Carlo simulation that carries the uncertainty of every published part. Context for a finding, not a verdict.
 *
 * dose = C · litres; risk of a shower = 1 − exp(−r·dose); of a year = 1 − Π(1 − risk) = 1 − exp(−r·Σ dose). r is lognormal, one for
 * infection and one for illness severe enough for care.
 *
 * Each draw is one person for a year: r, breath, mist and deposition are drawn once and kept for all its showers, as in the published
 * analyses; the concentration is drawn anew for each shower, or once, by what its spread is.
 *
 * Special cases: no Legionella is no risk. The same seed gives the same answer. Memory is 10 MB for any number of draws, and up to 8 MB
 * more for lognormal years; ten million draws take seven seconds or so.
 *
 * @param input concentration (CFU/L, a number or a distribution), minutes, showers a year, shower head, age, draws, seed
 * @param options progress is told how much is done
 * @throws RangeError when neither a number nor a distribution is given
 * @source hamilton-2019-coded
 * @source armstrong-haas-2007
 * @example
 * showerRisk({ cfuPerL: 0, minutes: 8, perYear: 365, showerHead: 'conventional', age: '50-61', draws: 100, seed: 1 }).infectionRisk.perYear.p95 // => 0
 */
export function showerRisk(input: ShowerRiskInput, { progress }: RunOptions = {}): ShowerRisk {
  const known = input.cfuPerL ?? input.distribution
  if (known === undefined)
    throw new RangeError('Cannot draw a dose because a concentration or its distribution is needed: got neither')
  const random = seededRandom(input.seed)
  const { before, after } = costsMs(input)
  const part = before / (before + after)
  const { perYear, draws } = input
  const water = concentrationDraws(known, {
    random,
    perYear,
    draws,
    progress: progress && ((fraction) => progress(part * fraction)),
  })
  const tallies = talliesOf(input, {
    random,
    water,
    progress: progress && ((fraction) => progress(part + (1 - part) * fraction)),
  })
  const { years } = water
  return {
    dose: tallies.dose.spread(draws),
    infectionRisk: { perEvent: tallies.infection.spread(draws), perYear: tallies.infectionYear.spread(years) },
    clinicalSeverityRisk: { perEvent: tallies.severity.spread(draws), perYear: tallies.severityYear.spread(years) },
    sensitivity: sensitivityOf(tallies.kept),
    basis: basisOf(known, { ...input, years }),
  }
}

interface Chance {
  random: ReturnType<typeof seededRandom>
  water: ConcentrationDraws
  progress: RunOptions['progress']
}

/** Draws whose parts are kept to see which of them drives the answer. */
const MOST_KEPT = 10_000
const DRAWS_A_TELLING = 8192

const PARTS = ['concentration', 'airborne-water', 'breathing-rate', 'deposition', 'dose-response'] as const
type Kept = Record<(typeof PARTS)[number] | 'risk', Float64Array>

function talliesOf(input: ShowerRiskInput, { random, water, progress }: Chance) {
  const draw = exposureDraws(input, random)
  const { infection: mild, clinicalSeverity: severe } = table.doseResponse
  const dose = new SpreadTally('itself')
  const [infection, infectionYear, severity, severityYear] = [risk(), risk(), risk(), risk()]
  const kept = emptyKept(Math.min(input.draws, MOST_KEPT))
  const exposure: Exposure = { airborne: 0, breathing: 0, deposited: 0, litres: 0 }
  for (let i = 0; i < input.draws; i++) {
    const concentration = water.one()
    draw(exposure)
    const ofOne = Math.log(concentration * exposure.litres)
    const ofYear = Math.log((concentration + water.others(concentration)) * exposure.litres)
    const perMild = mild.meanLog + mild.sdLog * random.normal()
    const perSevere = severe.meanLog + severe.sdLog * random.normal()
    dose.add(ofOne)
    infection.add(perMild + ofOne)
    infectionYear.add(perMild + ofYear)
    severity.add(perSevere + ofOne)
    severityYear.add(perSevere + ofYear)
    if (i < MOST_KEPT) keep(kept, { at: i, concentration, exposure, perMild, risk: perMild + ofOne })
    if (i % DRAWS_A_TELLING === 0) progress?.(i / input.draws)
  }
  return { dose, infection, infectionYear, severity, severityYear, kept }
}

const risk = () => new SpreadTally('risk')

function emptyKept(size: number): Kept {
  const row = () => new Float64Array(size)
  return {
    concentration: row(),
    'airborne-water': row(),
    'breathing-rate': row(),
    deposition: row(),
    'dose-response': row(),
    risk: row(),
  }
}

interface Draw {
  at: number
  concentration: number
  exposure: Exposure
  perMild: number
  risk: number
}

function keep(kept: Kept, { at, concentration, exposure, perMild, risk: of }: Draw): void {
  kept.concentration[at] = concentration
  kept['airborne-water'][at] = exposure.airborne
  kept['breathing-rate'][at] = exposure.breathing
  kept.deposition[at] = exposure.deposited
  kept['dose-response'][at] = perMild
  kept.risk[at] = of
}

/** What does not vary drives nothing and is left out; the strongest first. */
function sensitivityOf(kept: Kept): ShowerRisk['sensitivity'] {
  return PARTS.flatMap((input) => {
    const correlation = rankCorrelation(kept[input], kept.risk)
    return correlation === undefined ? [] : [{ input, rankCorrelation: correlation }]
  }).toSorted((a, b) => Math.abs(b.rankCorrelation) - Math.abs(a.rankCorrelation))
}

function basisOf(known: number | Concentration, run: { perYear: number; draws: number; years: number }): string {
  const person =
    'Context, not a verdict. Each draw is one person for a year: dose response, breath, mist and deposition are drawn once and kept for all showers'
  const same = `${person}; the risk of a year takes its ${run.perYear} showers as independent given these.`
  if (typeof known === 'number') return `${same} The concentration is taken as known and the same all year.`
  if (known.kind === 'below')
    return `${same} Where nothing was found, any level from 0 to the limit is taken as equally likely, an assumption, and kept all year.`
  if (known.kind === 'counts')
    return `${same} One level is drawn from what the colonies leave open by chance alone, and kept all year: plates of one day do not show how a year varies.`
  if (known.spread === 'unknown-level') return `${same} One level is drawn and kept all year.`
  const again = run.years < run.draws ? ` ${run.years} different years stand behind the draws.` : ''
  return `${same} The concentration is drawn anew for each shower.${again}`
}

const MOST_DRAWS = 10_000_000
/** 27 a day; more is not one person. */
const MOST_PER_YEAR = 10_000
const MINUTES_A_DAY = 1440
const DEFAULT_DRAWS = 50_000

/** Measured on one core of a plain machine. */
const MS_PER_DRAW = 8e-4
const MS_PER_SHOWER = 4e-5

function costsMs({ distribution, perYear, draws }: Pick<ShowerRiskInput, 'distribution' | 'perYear' | 'draws'>) {
  const simulated = distribution?.kind === 'lognormal' && distribution.spread === 'between-showers'
  const before = simulated ? yearsToSimulate(draws, perYear) * (perYear - 1) * MS_PER_SHOWER : 0
  return { before, after: draws * MS_PER_DRAW }
}

const input = z
  .strictObject({
    cfuPerL: field(measure.amount().optional(), {
      what: 'Legionella in the water; or else give a distribution',
      unit: 'CFU/L',
    }),
    distribution: field(concentrationField().optional(), {
      what: 'distribution of Legionella; in place of one number',
    }),
    minutes: field(z.number().min(0).max(MINUTES_A_DAY), { what: 'time in the shower', unit: 'min' }),
    perYear: field(z.int().min(1).max(MOST_PER_YEAR), { what: 'showers a year' }),
    showerHead: field(z.enum(showerHeads).default('conventional'), { what: 'shower head' }),
    age: field(z.enum(breathingAges).default('50-61'), { what: 'age in years; for the breathing rate' }),
    draws: field(z.int().min(100).max(MOST_DRAWS).default(DEFAULT_DRAWS), { what: 'draws; more make it steadier' }),
    seed: field(
      z
        .int()
        .min(0)
        .max(2 ** 32 - 1)
        .default(1),
      { what: 'seed; the same one repeats the same draws' },
    ),
  })
  .superRefine(({ cfuPerL, distribution }, context) => {
    const given = [cfuPerL, distribution].filter((each) => each !== undefined).length
    if (given === 0) context.addIssue(refuse(['cfuPerL'], 'a concentration, or its distribution'))
    if (given === 2)
      context.addIssue(refuse(['distribution'], { expected: 'nothing beside cfuPerL', received: 'both' }))
  })

const MORE_LIKELY_THAN_NOT = 0.5
const VERY_HIGH =
  'In most draws a single shower infects more likely than not. Read the concentration and its unit again (CFU/L, not CFU/mL). If it stands, do not wait for this estimate: keep people from these showers as the local code and the health department say.'

const risks = (what: string) =>
  field(
    z.object({
      perEvent: spreadField({ what: 'from one shower' }),
      perYear: spreadField({ what: 'from all showers of a year' }),
    }),
    { what: `risk of ${what}` },
  )

const EXAMPLE = {
  cfuPerL: 1000,
  minutes: 8,
  perYear: 300,
  showerHead: 'conventional' as const,
  age: '50-61' as const,
  draws: 20_000,
  seed: 1,
}

export const showerRiskCalculation = defineCalculation({
  id: 'shower-risk',
  title: 'Dose and risk from showering',
  purpose:
    'How many Legionella a shower may bring to the lung and what risk goes with it, with how uncertain that is. Context for a finding, never a verdict.',
  formula: {
    text: 'dose = C·B·t·1000·Σ(nᵢ·π·dᵢ³/6)·Σ(Fᵢ·Dᵢ); risk of a shower = 1 − exp(−r·dose); risk of a year = 1 − exp(−r·Σ dose) over N showers',
    symbols: {
      dose: 'Legionella settled in the lung, CFU',
      C: 'cfuPerL',
      B: 'air breathed in a minute, uniform by age',
      t: 'minutes',
      nᵢ: 'droplets of size i in the air, lognormal by shower head',
      dᵢ: 'diameter, 1 to 10 µm',
      Fᵢ: 'share of the Legionella in droplets of size i',
      Dᵢ: 'share of them that settles in the deep lung, uniform',
      r: 'risk for each CFU settled, lognormal; one for infection, one for illness severe enough for care',
      N: 'perYear',
    },
  },
  input,
  output: z.object({
    dose: spreadField({ what: 'dose settled in the lung from one shower', unit: 'CFU' }),
    infectionRisk: risks('infection'),
    clinicalSeverityRisk: risks('illness severe enough for care'),
    sensitivity: field(
      z.array(
        z.object({
          input: field(z.string(), { what: 'what varies' }),
          rankCorrelation: field(z.number(), { what: 'rank correlation with the risk of one shower' }),
        }),
      ),
      { what: 'what drives the spread; by the first 10,000 draws, strongest first' },
    ),
    basis: field(z.string(), { what: 'how it was drawn' }),
  }),
  sources: sourcesOf(
    'hamilton-2019-coded',
    'legionella-models-coded',
    'armstrong-haas-2007',
    'jeffreys-poisson',
    'blackman-vigna-2021',
    'marsaglia-bray-1964',
    'marsaglia-tsang-2000',
    'spearman-1904',
    'order-statistic-error',
    'common-practice',
  ),
  cautionsFor: ({ result: { infectionRisk } }) =>
    infectionRisk.perEvent.median > MORE_LIKELY_THAN_NOT ? [VERY_HIGH] : [],
  cautions: [
    'Context, not a verdict: no figure here makes a shower safe or a building a source. Cases, results and the criteria set decide; restrictions follow the local code.',
    'Risk per CFU comes from healthy guinea pigs. People at raised risk, smokers and old people among them, are not modelled and may be far more at risk.',
    'A count is of one day, one outlet and cells that grow; strains differ in what they do. Aerosol figures come from few shower heads.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      dose: {
        median: 0.023876312482134177,
        p5: 0.017777885175160577,
        p95: 0.0321074667562461,
        mean: 0.02424892905917447,
        medianStandardError: 0.00003736857239276109,
      },
      infectionRisk: {
        perEvent: {
          median: 0.0012711625314018806,
          p5: 0.0005409030434321972,
          p95: 0.0030075464633200965,
          mean: 0.0014608178653430942,
          medianStandardError: 0.000005583258335395587,
        },
        perYear: {
          median: 0.3172157133633535,
          p5: 0.14983925380417765,
          p95: 0.5948955149219801,
          mean: 0.33774861494058506,
          medianStandardError: 0.0011512367605923668,
        },
      },
      clinicalSeverityRisk: {
        perEvent: {
          median: 0.0000014778324976844963,
          p5: 8.24725941370997e-7,
          p95: 0.000002613026822350042,
          mean: 0.0000015692032021942925,
          medianStandardError: 4.572317383423633e-9,
        },
        perYear: {
          median: 0.00044320049402841256,
          p5: 0.0002473880805019472,
          p95: 0.0007835764576322509,
          mean: 0.0004706364092980592,
          medianStandardError: 0.0000013804826263545341,
        },
      },
      sensitivity: [
        {
          input: 'dose-response',
          rankCorrelation: 0.9325400209094002,
        },
        {
          input: 'airborne-water',
          rankCorrelation: 0.2786323077263231,
        },
        {
          input: 'breathing-rate',
          rankCorrelation: 0.15042795278827953,
        },
        {
          input: 'deposition',
          rankCorrelation: 0.10959437159194371,
        },
      ],
      basis:
        'Context, not a verdict. Each draw is one person for a year: dose response, breath, mist and deposition are drawn once and kept for all showers; the risk of a year takes its 300 showers as independent given these. The concentration is taken as known and the same all year.',
    },
  },
  run: showerRisk,
  costMs: (given) => {
    const asked = input.safeParse(given)
    if (!asked.success) return 0
    const { before, after } = costsMs(asked.data)
    return before + after
  },
})
