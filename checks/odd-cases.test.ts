// Odd cases (one well, volumes a million apart, empty cells, unusual levels, few picked), by checks/oracles/odd-cases.py at 50 digits and in
// whole numbers, none by the methods of the product. Invented data. Known by: computed, all rows.
import { plateCount } from '@rillmark/science/culture/plate-count.ts'
import type { Plate } from '@rillmark/science/culture/plates.ts'
import { detectionProbability } from '@rillmark/science/detection/detection-probability.ts'
import { upperBoundAfterNegatives } from '@rillmark/science/detection/upper-bound-after-negatives.ts'
import { mostProbableNumber } from '@rillmark/science/quantal/most-probable-number.ts'
import { twoByTwo } from '@rillmark/science/tables/two-by-two.ts'
import oracle from './oracles/odd-cases.json' with { type: 'json' }
import { hold } from './rows.ts'

const from = `computed: ${oracle.tool}` as const
const DIGITS = 'the product promises ten digits: doubles and root finders that stop at 1e-13'
const TEN = { share: 1e-10 }
const WHOLE = 'whole numbers'

/** Where the oracle writes nothing for an infinite value, the product leaves it out: both become infinite here. */
const orInfinite = (value: number | null | undefined) => value ?? Number.MAX_VALUE

hold(
  oracle.wells.map(
    ({ wells, level, mpnPerMl, profile, observed, expected, rarity }) =>
      [
        `wells ${wells.map(({ positive, inoculated, volumeMl }) => `${positive}/${inoculated} at ${volumeMl} mL`).join(', ')}`,
        { wells, level },
        [mpnPerMl, ...profile, ...observed, ...expected, rarity],
        TEN,
        DIGITS,
        from,
      ] as const,
  ),
  (input) => {
    const one = mostProbableNumber({ ...input, information: 'observed' })
    const { cox } = mostProbableNumber({ ...input, information: 'expected' }).interval
    const { profileLikelihood: profile, cox: observed } = one.interval
    return [
      one.mpnPerMl,
      profile.lower,
      profile.upper,
      observed.lower,
      observed.upper,
      cox.lower,
      cox.upper,
      one.rarityIndex,
    ]
  },
)

hold(
  oracle.tables.map(
    ({ cells, level, conditional, exact, midP, fisher, midPValue, risk }) =>
      [
        `table ${cells.join(' ')} at ${level}`,
        { cells, level },
        [conditional, ...exact, ...midP, fisher, midPValue, ...(risk ?? [])].map(orInfinite),
        TEN,
        DIGITS,
        from,
      ] as const,
  ),
  ({ cells: [exposedCases = 0, exposedWell = 0, unexposedCases = 0, unexposedWell = 0], level }) => {
    const { oddsRatio, riskRatio, fisherTwoSided, midP } = twoByTwo({
      exposedCases,
      exposedWell,
      unexposedCases,
      unexposedWell,
      level,
    })
    const { conditional, interval, midPInterval } = oddsRatio
    const { estimate, interval: risk } = riskRatio
    const all = [
      conditional,
      interval.lower,
      interval.upper,
      midPInterval.lower,
      midPInterval.upper,
      fisherTwoSided,
      midP,
    ]
    return [...all, ...(exposedCases * unexposedCases > 0 ? [estimate, risk.lower, risk.upper] : [])].map(orInfinite)
  },
)

hold(
  oracle.detection.map(
    ({ outlets, colonised, sampled, sensitivity, probability }) =>
      [
        `${sampled} of ${outlets} sampled, ${colonised} colonised, sensitivity ${sensitivity}`,
        { outlets, colonised, sampled, sensitivity },
        probability,
        TEN,
        DIGITS,
        from,
      ] as const,
  ),
  (design) => detectionProbability(design),
)

hold(
  oracle.detection.flatMap(({ outlets, sampled, sensitivity, hidden }) =>
    hidden.map(
      ({ level, upperNumber }) =>
        [
          `${sampled} of ${outlets} negative, sensitivity ${sensitivity}, at ${level}`,
          { outlets, sampled, sensitivity, level },
          upperNumber,
          0,
          WHOLE,
          from,
        ] as const,
    ),
  ),
  (design) => upperBoundAfterNegatives(design).upperNumber,
)

hold(
  [...oracle.plates, ...oracle.crowded].map(
    ({ plates, level, cfuPerL, interval }) =>
      [
        `plates ${plates.map((plate) => `${plate.colonies} on ${plate.platedMl} mL${'overgrown' in plate ? ' or more' : ''}`).join(', ')}`,
        { plates: plates as Plate[], level },
        [cfuPerL, ...interval],
        TEN,
        DIGITS,
        from,
      ] as const,
  ),
  (input) => {
    const { cfuPerL, interval } = plateCount(input)
    return [cfuPerL, interval.lower, interval.upper]
  },
)
