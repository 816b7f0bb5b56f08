// Odd fits: all ill, one alone, ill and well parted, covariates of 1e-6 and 1e5; two readings, bands, nearly equal readings and ones sixteen
// powers of ten apart. By checks/oracles/odd-fits.py at 50 digits, from the height of the likelihood alone. Invented data. Known by: computed,
// all rows.
import { censoredSummary } from '@rillmark/science/censored/censored-summary.ts'
import type { Reading } from '@rillmark/science/censored/reading.ts'
import type { LogisticRow } from '@rillmark/science/logistic/design.ts'
import { penalisedLogistic } from '@rillmark/science/logistic/penalised-logistic.ts'
import oracle from './oracles/odd-fits.json' with { type: 'json' }
import { hold } from './rows.ts'

const from = `computed: ${oracle.tool}` as const
const CLIMBED = 'the product climbs to where a step no longer shows in a double, which leaves nine digits'
const NINE = { share: 1e-9 }

hold(
  oracle.firth.map(
    ({ rows, level, estimates, limits, penalisedLogLikelihood }) =>
      [
        `${rows.length} people, ${
          Object.keys(rows[0] ?? {})
            .slice(1)
            .join(' and ') || 'no covariate'
        }`,
        { rows: rows as unknown as LogisticRow[], level },
        [...estimates, ...limits.flat(), penalisedLogLikelihood],
        NINE,
        CLIMBED,
        from,
      ] as const,
  ),
  (input) => {
    const { coefficients, penalisedLogLikelihood } = penalisedLogistic(input)
    const all = Object.values(coefficients)
    return [
      ...all.map(({ estimate }) => estimate),
      ...all.flatMap(({ interval }) => [interval.lower, interval.upper]),
      penalisedLogLikelihood,
    ]
  },
)

const PROFILED = 'limits are searched in the logarithm to 1e-10, in standard errors'
const PROFILE = { share: 1e-9 }
hold(
  oracle.lognormal.map(
    ({ values, level, meanLog, sdLog, logLikelihood, geometricMean, geometricSd, mean }) =>
      [
        `${values.length} readings: ${JSON.stringify(values)}`,
        { values: values as Reading[], level },
        [meanLog, sdLog, logLikelihood, ...geometricMean, ...geometricSd, ...mean],
        PROFILE,
        PROFILED,
        from,
      ] as const,
  ),
  ({ values, level }) => {
    const { mle } = censoredSummary({ values, quantiles: [], plottingConstant: 0, level })
    const limits = [mle?.geometricMeanInterval, mle?.geometricSdInterval, mle?.interval]
    return [mle?.meanLog, mle?.sdLog, mle?.logLikelihood, ...limits.flatMap((each) => [each?.lower, each?.upper])]
  },
)
