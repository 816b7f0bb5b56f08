// Killing Legionella by heat and by disinfectant: what was published must lie within the range shown.
import { disinfectantContact } from '@rillmark/science/inactivation/disinfectant-contact.ts'
import { heatInactivation } from '@rillmark/science/inactivation/heat-inactivation.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold, holdWithin } from './rows.ts'

const SANDEN: From = 'seen: Sanden et al., Current Microbiology 1989, demand-free water'
const WHO: From = 'seen: WHO 2007 as quoted on public pages'
const HANDBOOK: From = 'seen: handbook "Legionella in the view of specialists", p. 222'
const POOLED: From = 'computed: D60 of 2 min and z of 5.29 °C of that handbook (both seen)'
const STOUT: From = 'computed: an eighth of the times for 8 log10 of Stout et al. 1986, cited in that handbook (seen)'
const DENNIS: From = 'memory: Dennis, Green and Jones, J. Appl. Bacteriol. 56 (1984) 349'
const KUCHTA: From = 'seen: Kuchta et al., AEM 46 (1983) 1134'
const RESEARCH: From = 'seen: Water Research 19 (1985) 839, as summarised by its author'
const CUNLIFFE: From = 'seen: Cunliffe, J. Appl. Bacteriol. 68 (1990) 453'
const ARITHMETIC: From = 'computed: residual times minutes of the studies'
const SCIPY: From = 'computed: oracles/chemistry.py'
const DIGITS = 'two or three figures are printed'
const SAME = 'the same points joined the same way: rounding'

// biome-ignore format: a table, one row a line
holdWithin<number>(
  [
    ['45 °C', 45, 2500, 0, 'a point of the range', SANDEN],
    ['50 °C', 50, 380, 0, 'a point of the range', SANDEN],
    ['55 °C', 55, 13.93, 1e-12, 'a point of the range', SANDEN],
    ['60 °C', 60, 0.74, 0, 'a point of the range', SANDEN],
    ['66 °C', 66, 0.45, 0, 'a point of the range', SANDEN],
    ['50 °C, fastest strain', 50, 80, 0, 'a point of the range', WHO],
    ['50 °C, slowest strain', 50, 124, 0, 'a point of the range', WHO],
    ['60 °C', 60, 2, 0, 'a point of the range', WHO],
    ['60 °C', 60, 2, 0, 'a point of the range', HANDBOOK],
    ['50 °C', 50, 111, 0, 'a point of the range', DENNIS],
    ['54 °C', 54, 27, 1e-12, 'a point of the range', DENNIS],
    ['58 °C', 58, 6, 1e-12, 'a point of the range', DENNIS],
    ['60 °C', 60, 25 / 8, 0, 'a point of the range', STOUT],
    ['70 °C', 70, 10 / 8, 0, 'a point of the range', STOUT],
    ['80 °C', 80, 5 / 8, 0, 'a point of the range', STOUT],
    ['50 °C', 50, 155, { share: 0.01 }, DIGITS, POOLED],
    ['55 °C', 55, 17.6, { share: 0.01 }, DIGITS, POOLED],
    ['65 °C', 65, 0.227, { share: 0.01 }, DIGITS, POOLED],
    ['70 °C', 70, 0.026, { share: 0.02 }, DIGITS, POOLED],
  ],
  (temperatureC) => heatInactivation({ temperatureC, minutes: 1 }).decimalReductionMinutes,
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['spread at 50 °C', 50, [80, 380], 0, 'the points themselves', SANDEN],
    ['spread at 60 °C', 60, [0.74, 3.125], 1e-12, 'the points themselves', STOUT],
  ],
  (temperatureC) => {
    const { lower, upper } = heatInactivation({ temperatureC, minutes: 1 }).decimalReductionMinutes
    return [lower, upper]
  },
)

// biome-ignore format: a table, one row a line
hold<{ temperatureC: number; minutes: number }>(
  [['from 100 000 to 100 CFU/L at 60 °C takes 6 min', { temperatureC: 60, minutes: 6 }, 3, 1e-9, 'arithmetic', HANDBOOK]],
  (input) => heatInactivation(input).log10Reduction.central,
)

hold<number>(
  oracle.killing.map(({ celsius, lower, central, upper }) => [
    `time for one log10 at ${celsius} °C`,
    celsius,
    [lower, central, upper],
    { share: 1e-9 },
    SAME,
    SCIPY,
  ]),
  (temperatureC) => {
    const { lower, central, upper } = heatInactivation({ temperatureC, minutes: 1 }).decimalReductionMinutes
    return [lower, central, upper]
  },
)

type Exposure = readonly [residualMgPerL: number, minutes: number, pH: number, temperatureC: number]
const contact = (
  [residualMgPerL, minutes, pH, temperatureC]: Exposure,
  disinfectant: 'free-chlorine' | 'monochloramine',
) => disinfectantContact({ residualMgPerL, minutes, pH, temperatureC, disinfectant })

// biome-ignore format: a table, one row a line
holdWithin<Exposure>(
  [
    ['99 % in 40 min at 0.1 mg/L', [0.1, 40, 7.6, 21], 2, 1e-9, 'a point of the range', KUCHTA],
    ['twice as long at 4 °C', [0.1, 80, 7.6, 4], 2, 1e-9, 'a point of the range', KUCHTA],
    ['none of 6e6 after 1 min at 12 mg/L', [12, 1, 7.4, 25], 6.778, 1e-9, 'a point of the range', RESEARCH],
    ['none of 6e6 after 10 min at 2.5 mg/L', [2.5, 10, 7.4, 25], 6.778, 1e-9, 'a point of the range', RESEARCH],
    ['none of 6e6 after 30 min at 0.5 mg/L', [0.5, 30, 7.4, 25], 6.778, 1e-9, 'a point of the range', RESEARCH],
  ],
  (exposure) => contact(exposure, 'free-chlorine').log10Reduction,
)

// biome-ignore format: a table, one row a line
hold<Exposure>(
  [
    ['0.1 mg/L for 40 min', [0.1, 40, 7.6, 21], 4, 1e-12, 'arithmetic', ARITHMETIC],
    ['12 mg/L for 1 min', [12, 1, 7.4, 25], 12, 0, 'arithmetic', ARITHMETIC],
    ['2.5 mg/L for 10 min', [2.5, 10, 7.4, 25], 25, 0, 'arithmetic', ARITHMETIC],
    ['0.5 mg/L for 30 min', [0.5, 30, 7.4, 25], 15, 0, 'arithmetic', ARITHMETIC],
    ['50 mg/L for an hour, which a biofilm outlived', [50, 60, 7.4, 25], 3000, 0, 'arithmetic', ARITHMETIC],
  ],
  (exposure) => contact(exposure, 'free-chlorine').ctMgMinPerL,
)

// biome-ignore format: a table, one row a line
hold<Exposure>(
  [['99 % at 15 mg min/L', [1, 15, 7.5, 20], 2, 0, 'the figure itself', CUNLIFFE]],
  (exposure) => contact(exposure, 'monochloramine').log10Reduction.central,
)

hold<{ pH: number; temperatureC: number }>(
  oracle.contact.map(({ pH, celsius, lower, central, upper }) => [
    `residual times minutes for one log10 at pH ${pH} and ${celsius} °C`,
    { pH, temperatureC: celsius },
    [lower, central, upper],
    { share: 1e-9 },
    SAME,
    SCIPY,
  ]),
  ({ pH, temperatureC }) => {
    const { lower, central, upper } = contact([1, 1, pH, temperatureC], 'free-chlorine').ctPerLog10
    return [lower, central, upper]
  },
)

test('the cold doubles what the same study found', () => {
  const at = (temperatureC: number) => contact([1, 1, 7.6, temperatureC], 'free-chlorine').ctPerLog10.central
  expect(at(4) / at(21)).toBeCloseTo(2, 9)
})

test('trap: the 15 min of monochloramine are of Legionella, the 37 of the same paper of E. coli', () => {
  expect(contact([1, 37, 7.5, 20], 'monochloramine').log10Reduction.central).toBeGreaterThan(4)
  expect(contact([1, 15, 7.5, 20], 'monochloramine').basis).toContain('One published figure')
})

test('trap: a chart of "all dead" (60 °C 32 min, 66 °C 2 min) is not a decimal reduction time: many log10 in each', () => {
  const within = (temperatureC: number, minutes: number) => heatInactivation({ temperatureC, minutes }).log10Reduction
  expect(within(60, 32).central).toBeGreaterThan(10)
  expect(within(66, 2).central).toBeGreaterThan(10)
})

test('trap: one study has times far above the others when hot, so the range widens to hold both, and it says so', () => {
  const at = (temperatureC: number) => heatInactivation({ temperatureC, minutes: 1 })
  const width = (temperatureC: number) =>
    at(temperatureC).decimalReductionMinutes.upper / at(temperatureC).decimalReductionMinutes.lower
  expect(width(70)).toBeGreaterThan(10 * width(60))
  expect(at(70).basis).toContain('Published values disagree')
})
