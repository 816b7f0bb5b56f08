import reporting from '@rillmark/reference/plate-count/reporting.json' with { type: 'json' }
import { gammaCdf } from '../distributions/gamma.ts'
import { type Plate, representedMl } from './plates.ts'

export interface PlatesAgreement {
  /** Chance of counts so far from the volumes, were they of one water. */
  p: number
  /** The plate furthest from what the others make likely: its place in the list, its colonies and those expected. */
  furthest: { plate: number; colonies: number; expected: number }
}

/**
 * Whether the colonies on plates treated alike go by the sample each stands for (G-test), or nothing where fewer than two can be compared.
 * Wanted because plates that contradict each other still give a neat number: a mixed-up dilution, an inhibitor or a misread plate.
 *
 * G = 2·Σ n·ln(n / e) / q, e = Σn · v/Σv, against chi-squared of k − 1 degrees of freedom;
 * q = 1 + (Σ(Σv/v) − 1) / (6·Σn·(k − 1)) takes off what few colonies add.
 *
 * Special cases: overgrown plates and those of which only some colonies were picked are left out: theirs is no plain count.
 *
 * @param plates treated alike
 * @source iso-8199-2018
 * @source williams-1976
 * @example
 * platesAgreement([{ colonies: 4, platedMl: 1, concentrationFactor: 1 }, { colonies: 4, platedMl: 1, concentrationFactor: 1 }]).p // => 1
 */
export function platesAgreement(plates: readonly Plate[]): PlatesAgreement | undefined {
  const compared = plates.flatMap((plate, index) => {
    const colonies = plainCount(plate)
    return colonies === undefined ? [] : [{ plate: index + 1, colonies, volume: representedMl(plate) }]
  })
  const colonies = compared.reduce((sum, each) => sum + each.colonies, 0)
  const volume = compared.reduce((sum, each) => sum + each.volume, 0)
  const freedom = compared.length - 1
  if (freedom < 1 || colonies === 0) return undefined
  const rows = compared.map((each) => ({ ...each, expected: (colonies * each.volume) / volume }))
  const bare = 2 * rows.reduce((sum, row) => sum + likelihoodPart(row), 0)
  const fewColonies = 1 + (rows.reduce((sum, row) => sum + volume / row.volume, 0) - 1) / (6 * colonies * freedom)
  const furthest = rows.reduce((most, row) => (distance(row) > distance(most) ? row : most))
  return {
    p: gammaCdf(Math.max(0, bare) / fewColonies / 2, { shape: freedom / 2, tail: 'upper' }),
    furthest: { plate: furthest.plate, colonies: furthest.colonies, expected: furthest.expected },
  }
}

/** Confirmed colonies where each was picked or none needed to be. */
function plainCount({ colonies, confirmedOf, confirmed, overgrown }: Plate): number | undefined {
  if (overgrown !== undefined || (confirmedOf !== undefined && confirmedOf < colonies)) return undefined
  return confirmed ?? colonies
}

interface Row {
  colonies: number
  expected: number
}

/** n·ln(n/e) − (n − e), whose sum is that of n·ln(n/e) and which is never below 0. */
function likelihoodPart({ colonies, expected }: Row): number {
  return colonies === 0 ? expected : colonies * Math.log(colonies / expected) - colonies + expected
}

const distance = (row: Row): number => likelihoodPart(row)

const SHOWN_DIGITS = 2

/**
 * A caution for each treatment whose plates contradict each other.
 *
 * @param plates of one sample
 * @source none: it puts a test into words
 * @example
 * contradictionsOf([{ colonies: 4, platedMl: 1, concentrationFactor: 1 }]).length // => 0
 */
export function contradictionsOf(plates: readonly Plate[]): string[] {
  const numbered = plates.map((plate, index) => ({ ...plate, place: index + 1 }))
  return [...Map.groupBy(numbered, ({ treatment }) => treatment)].flatMap(([treatment, alike]) => {
    const agreement = platesAgreement(alike)
    if (agreement === undefined || agreement.p >= reporting.contradictUnder) return []
    const { plate, colonies, expected } = agreement.furthest
    const [p, likely] = [agreement.p, expected].map((value) => String(Number(value.toPrecision(SHOWN_DIGITS))))
    const which = treatment === undefined ? 'The plates' : `The plates (${treatment.replaceAll('-', ' ')})`
    return [
      `${which} contradict each other: p ${agreement.p === 0 ? 'far below 0.001' : p} by the G-test of colonies against the sample plated. Furthest off is plate ${alike[plate - 1]?.place}: ${colonies} colonies where ${likely} would go with the others. The interval does not cover that: look for a mixed-up dilution, an inhibitor or a misread plate first.`,
    ]
  })
}
