// What the common "30 % of distal sites" criterion can tell from few sites: exact 95 % limits, in per cent.
import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { type From, hold } from './rows.ts'

const R: From = 'computed: R 4.2.2 (qbeta)'
const TENTH = 'printed to a tenth of a per cent'

hold<readonly [positive: number, total: number]>(
  [
    ['3 of 10', [3, 10], [6.7, 65.2], 0.05, TENTH, R],
    ['6 of 20', [6, 20], [11.9, 54.3], 0.05, TENTH, R],
    ['0 of 10', [0, 10], [0, 30.8], 0.05, TENTH, R],
    ['0 of 20', [0, 20], [0, 16.8], 0.05, TENTH, R],
  ],
  ([positive, total]) => {
    const { lower, upper } = proportion({ positive, total, method: 'exact', level: 0.95 }).interval
    return [100 * lower, 100 * upper]
  },
)
