// Groups and matched sets beside R 4.2.2 (mantelhaen.test; clogit of survival 3.5.3, exact) and beside exact integers with 40-digit roots.
// Scripts and outputs in checks/oracles. Known by: computed. The Oswego outbreak (vanilla ice cream by sex and by chocolate) and the
// admissions' tables are open data sets; the Mantel-Haenszel odds ratio 0.9047 of the admissions is a textbook figure (memory, agrees).
// Tolerances: R prints 12 figures; clogit stops at 1e-9; the 40-digit values are held to 1e-10.
import { matchedSets } from '@rillmark/science/tables/matched-sets.ts'
import { stratifiedTwoByTwo } from '@rillmark/science/tables/stratified-two-by-two.ts'
import { twoByTwo } from '@rillmark/science/tables/two-by-two.ts'
import { expect, test } from 'vitest'
import exact from './oracles/exact-tables.json' with { type: 'json' }
import r from './oracles/stratified.json' with { type: 'json' }

/** Rows of an oracle, each with the tool it is from and how it is known. */
const known = <Row extends object>(rows: readonly Row[], from: string) =>
  rows.map((row) => ({ ...row, from: `computed: ${from}` }))

const off = (got: number | undefined, want: number | null | undefined) =>
  want === null || want === undefined
    ? Number(got !== undefined)
    : want === 0
      ? (got ?? 1)
      : Math.abs((got ?? 0) / want - 1)
const table = ([exposedCases = 0, exposedWell = 0, unexposedCases = 0, unexposedWell = 0]: number[]) => ({
  exposedCases,
  exposedWell,
  unexposedCases,
  unexposedWell,
})

test.each(known(r.stratified, r.tool))(
  'Mantel-Haenszel of $name ($from)',
  ({ tables, oddsRatio, interval, chiSquared, p }) => {
    const got = stratifiedTwoByTwo({ tables: tables.map(table), level: 0.95 })
    expect(off(got.mantelHaenszelOddsRatio, oddsRatio)).toBeLessThan(1e-10)
    expect(off(got.interval.lower, interval[0])).toBeLessThan(1e-10)
    expect(off(got.interval.upper, interval[1])).toBeLessThan(1e-10)
    expect(off(got.association.chiSquared, chiSquared)).toBeLessThan(1e-10)
    expect(off(got.association.p, p)).toBeLessThan(1e-10)
  },
)

test('the risk ratio of vanilla over the groups, limits after Greenland and Robins (base R, computed)', () => {
  const risk = (name: string) => {
    const tables = r.stratified.find((each) => each.name === name)?.tables ?? []
    return stratifiedTwoByTwo({ tables: tables.map(table), level: 0.95 }).mantelHaenszelRiskRatio
  }
  const [sex, chocolate] = [risk('vanilla_by_sex'), risk('vanilla_by_chocolate')]
  expect(off(sex.estimate, 5.727714187)).toBeLessThan(1e-9)
  expect(off(sex.interval.lower, 1.986792457)).toBeLessThan(1e-9)
  expect(off(sex.interval.upper, 16.512399016)).toBeLessThan(1e-9)
  expect(off(chocolate.estimate, 5.805114638)).toBeLessThan(1e-9)
  expect(off(chocolate.interval.upper, 17.682143591)).toBeLessThan(1e-9)
})

test.each(known(r.matched, r.tool))('conditional odds ratio of seed $seed ($from)', ({ sets, coefficient }) => {
  const rows = sets.map(([caseExposed = 0, controls = 0, controlsExposed = 0]) => ({
    caseExposed: caseExposed === 1,
    controls,
    controlsExposed,
  }))
  const { oddsRatio, estimate } = matchedSets({ sets: rows, level: 0.95 })
  expect(estimate).toBe('conditional maximum likelihood')
  expect(off(Math.log(oddsRatio), coefficient)).toBeLessThan(1e-7)
})

test.each(
  known(
    exact.matched.map((each, study) => ({ study, ...each })),
    exact.tool,
  ),
)('matched study $study, exactly ($from)', (study) => {
  const got = matchedSets({ sets: study.sets, level: 0.95 })
  expect(off(got.oddsRatio, study.oddsRatio)).toBeLessThan(1e-10)
  expect(off(got.interval.lower, study.exact[0])).toBeLessThan(1e-10)
  expect(off(got.interval.upper, study.exact[1])).toBeLessThan(1e-10)
  expect(off(got.midPInterval.lower, study.midP[0])).toBeLessThan(1e-10)
  expect(off(got.midPInterval.upper, study.midP[1])).toBeLessThan(1e-10)
  expect(off(got.p, study.p)).toBeLessThan(1e-10)
})

test.each(known(exact.large, exact.tool))('a table of many: $cells ($from)', ({ cells, exact: limits, midP }) => {
  const { interval, midPInterval } = twoByTwo({ ...table(cells), level: 0.95 }).oddsRatio
  expect(off(interval.lower, limits[0])).toBeLessThan(1e-10)
  expect(off(interval.upper, limits[1])).toBeLessThan(1e-10)
  expect(off(midPInterval.lower, midP[0])).toBeLessThan(1e-10)
  expect(off(midPInterval.upper, midP[1])).toBeLessThan(1e-10)
})
