// Firth's penalised logistic regression.
// sex2 (239 women, 36 patterns): data and values of the R package logistf 1.26.1, which the method's authors maintain; the statistic
// 49.09 on 6 degrees of freedom is the one published with the data (memory, agrees). Flower show of 1999 (den Boer et al. 2002,
// exploratory study; counts seen): logistf. Known by: computed. Tolerances: as many figures as were printed and converged.
// Invented data with and without separation: NumPy and SciPy by general optimisation, checks/oracles/penalised.py; it stops at 1e-6.
import type { LogisticRow } from '@rillmark/science/logistic/design.ts'
import { penalisedLogistic } from '@rillmark/science/logistic/penalised-logistic.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/penalised.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const LOGISTF: From = 'computed: R package logistf 1.26.1, by the authors of the method'

// case age oc vic vicl vis dia, then how many
const SEX2 = `0 0 0 0 0 1 0 1|0 0 0 1 0 0 0 2|0 0 0 1 0 1 0 1|0 0 0 1 1 0 0 8|0 0 0 1 1 1 0 18|0 0 1 0 0 0 0 42|0 0 1 0 0 1 0 1|
0 0 1 1 0 0 0 1|0 0 1 1 1 0 0 5|0 0 1 1 1 1 0 6|0 1 0 1 1 0 0 2|0 1 0 1 1 1 0 4|0 1 1 0 0 0 0 14|0 1 1 0 0 1 0 1|0 1 1 1 0 0 0 1|
0 1 1 1 1 1 0 2|1 0 0 0 0 1 0 1|1 0 0 1 0 0 0 14|1 0 0 1 0 1 0 3|1 0 0 1 1 0 0 10|1 0 0 1 1 1 0 12|1 0 0 1 1 1 1 1|1 0 1 0 0 0 0 44|
1 0 1 0 0 0 1 3|1 0 1 1 0 0 0 15|1 0 1 1 0 0 1 1|1 0 1 1 0 1 0 2|1 0 1 1 1 0 0 7|1 0 1 1 1 1 0 3|1 1 0 1 0 0 0 2|1 1 0 1 0 1 0 1|
1 1 0 1 0 1 1 1|1 1 0 1 1 0 0 1|1 1 0 1 1 1 1 1|1 1 1 0 0 0 0 5|1 1 1 1 0 0 0 3`

function people(text: string): LogisticRow[] {
  return text.split('|').flatMap((line) => {
    const [outcome, age = 0, oc = 0, vic = 0, vicl = 0, vis = 0, dia = 0, count = 0] = line
      .trim()
      .split(' ')
      .map(Number)
    return Array.from(
      { length: count },
      () => ({ outcome: outcome === 1 ? 1 : 0, age, oc, vic, vicl, vis, dia }) as LogisticRow,
    )
  })
}

const sex2 = penalisedLogistic({ rows: people(SEX2), level: 0.95 })

const SEX2_VALUES = [
  // name, coefficient, limits, p
  ['intercept', 0.12025404913, -0.8185591064, 1.07315121603, 0.8020268023],
  ['age', -1.10598133138, -1.9737883828, -0.30742514158, 0.006143471845],
  ['oc', -0.06881672706, -0.9414363302, 0.78920202126, 0.8751910586],
  ['vic', 2.26887465224, 1.2730215712, 3.43543273092, 0.000001678876959],
  ['vicl', -2.1114081853, -3.2608611175, -1.11773494698, 0.00001237804763],
  ['vis', -0.7883169514, -1.6080878895, 0.01518467907, 0.05449700806],
  ['dia', 3.09601182735, 0.7745681692, 8.03029352216, 0.004951873386],
] as const
hold(
  SEX2_VALUES.map(
    ([name, estimate, lower, upper]) =>
      [`sex2: ${name}`, name, [estimate, lower, upper], 5e-7, 'its limits stop at seven decimals', LOGISTF] as const,
  ),
  (name) => {
    const { estimate, interval } = sex2.coefficients[name] ?? {}
    return [estimate, interval?.lower, interval?.upper]
  },
)
hold(
  SEX2_VALUES.map(
    ([name, , , , p]) =>
      [`sex2: p of ${name}`, name, p, { share: 5e-6 }, 'its likelihoods stop early', LOGISTF] as const,
  ),
  (name) => sex2.coefficients[name]?.p,
)

test('sex2: 239 women, penalised log-likelihood and statistic (logistf 1.26.1, computed; 49.09 on 6 as published, memory)', () => {
  expect(people(SEX2)).toHaveLength(239)
  expect(sex2.penalisedLogLikelihood).toBeCloseTo(-132.53937953, 7)
  expect(sex2.test.chiSquared).toBeCloseTo(49.09064279, 7)
  expect(sex2.test.degreesOfFreedom).toBe(6)
})

test('flower show: 10 of 10 cases and 3 of 21 controls exposed (counts seen; logistf 1.26.1, computed)', () => {
  const some = (row: LogisticRow, count: number) => Array.from({ length: count }, () => row)
  const rows = [...some({ outcome: 1, x: 1 }, 10), ...some({ outcome: 0, x: 1 }, 3), ...some({ outcome: 0, x: 0 }, 18)]
  const { coefficients, penalisedLogLikelihood, test: all } = penalisedLogistic({ rows, level: 0.95 })
  expect(coefficients['x']?.estimate).toBeCloseTo(4.7095302013, 9)
  expect(coefficients['x']?.interval.lower).toBeCloseTo(2.336422759, 8)
  expect(coefficients['x']?.interval.upper).toBeCloseTo(9.653987275, 8)
  expect(coefficients['intercept']?.interval.lower).toBeCloseTo(-8.457705151, 8)
  expect((coefficients['x']?.p ?? 0) / 3.288792285e-6).toBeCloseTo(1, 8)
  expect(penalisedLogLikelihood).toBeCloseTo(-7.4571871179, 9)
  expect(all.chiSquared).toBeCloseTo(21.64023976, 7)
})

test.each(oracle.studies.map((study, number) => ({ number, from: `computed: ${oracle.tool}`, ...study })))(
  'invented study $number ($from)',
  (study) => {
    const got = penalisedLogistic({ rows: study.rows as unknown as LogisticRow[], level: 0.95 })
    const all = Object.values(got.coefficients)
    expect(all).toHaveLength(study.estimates.length)
    for (const [j, { estimate, interval }] of all.entries()) {
      expect(estimate).toBeCloseTo(study.estimates[j] ?? Number.NaN, 5)
      expect(interval.lower).toBeCloseTo(study.limits[j]?.[0] ?? Number.NaN, 5)
      expect(interval.upper).toBeCloseTo(study.limits[j]?.[1] ?? Number.NaN, 5)
    }
    expect(got.penalisedLogLikelihood).toBeCloseTo(study.penalisedLogLikelihood, 9)
  },
)
