// One odds ratio for all groups? Breslow and Day's test with and without Tarone's correction, the Mantel-Haenszel odds and risk ratio and its
// test, by statsmodels (checks/oracles/homogeneity.py, its version in the output). Data: as each row names. Known by: computed, all rows.
import { stratifiedTwoByTwo } from '@rillmark/science/tables/stratified-two-by-two.ts'
import oracle from './oracles/homogeneity.json' with { type: 'json' }
import { hold } from './rows.ts'

const DOUBLES = 'both work in doubles and in closed form; the fitted cells come from a root that loses a few digits'
const SHARE = { share: 1e-9 }
/** Of a chi-squared that is 0 but for rounding. */
const ZERO = 1e-9

const from = `computed: ${oracle.tool}` as const
const run = (tables: number[][]) =>
  stratifiedTwoByTwo({
    tables: tables.map(([exposedCases = 0, exposedWell = 0, unexposedCases = 0, unexposedWell = 0]) => ({
      exposedCases,
      exposedWell,
      unexposedCases,
      unexposedWell,
    })),
    level: 0.95,
  })

hold(
  oracle.studies.map(
    ({ name, tables, breslowDay, tarone, p }) =>
      [
        `${name}: homogeneity`,
        tables,
        [breslowDay, tarone, p],
        breslowDay < ZERO ? ZERO : SHARE,
        DOUBLES,
        from,
      ] as const,
  ),
  (tables) => {
    const { breslowDay, tarone, p } = run(tables).homogeneity ?? {}
    return [breslowDay, tarone, p]
  },
)

hold(
  oracle.studies.map(
    ({ name, tables, oddsRatio, interval, riskRatio, chiSquared }) =>
      [`${name}: ratios`, tables, [oddsRatio, ...interval, riskRatio, chiSquared], SHARE, DOUBLES, from] as const,
  ),
  (tables) => {
    const { mantelHaenszelOddsRatio, interval, mantelHaenszelRiskRatio, association } = run(tables)
    return [
      mantelHaenszelOddsRatio,
      interval.lower,
      interval.upper,
      mantelHaenszelRiskRatio.estimate,
      association.chiSquared,
    ]
  },
)
