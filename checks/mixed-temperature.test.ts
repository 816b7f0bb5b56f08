// Hot and cold water mixed.
import { type MixedTemperatureInput, mixedTemperature } from '@rillmark/science/heat/mixed-temperature.ts'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const MEAN: From = 'computed: flow-weighted mean'
const SCIPY: From = 'computed: oracles/chemistry.py, enthalpy of IF97 water by quadrature'
const mix = (hotC: number, coldC: number, ...flows: [number, number]): MixedTemperatureInput => ({
  hotC,
  coldC,
  hotFlowLPerMin: flows[0],
  coldFlowLPerMin: flows[1],
})

// biome-ignore format: a table, one row a line
hold<MixedTemperatureInput>(
  [
    ['3 of 60 and 2 of 10 °C', mix(60, 10, 3, 2), 40, 1e-12, 'arithmetic', MEAN],
    ['equal parts of boiling and ice', mix(100, 0, 1, 1), 50, 1e-12, 'arithmetic', MEAN],
    ['all hot', mix(60, 10, 7, 0), 60, 0, 'arithmetic', MEAN],
    ['all cold', mix(60, 10, 0, 7), 10, 0, 'arithmetic', MEAN],
    ['cold called hot', mix(10, 60, 3, 1), 22.5, 1e-12, 'arithmetic', MEAN],
    ['a drop of hot in a river', mix(60, 10, 1e-6, 1e6), 10 + 5e-11, 1e-12, 'arithmetic', MEAN],
    ['largest flows', mix(70, 20, 1e12, 1e12), 45, 1e-12, 'arithmetic', MEAN],
  ],
  (input) => mixedTemperature(input).temperatureC,
)

hold<MixedTemperatureInput>(
  oracle.mixed.map(({ hot, cold, qHot, qCold, end }) => [
    `by heat: ${qHot} of ${hot} and ${qCold} of ${cold} °C`,
    mix(hot, cold, qHot, qCold),
    end,
    0.01,
    'heat capacities of the two formulations differ by up to 7e-4: 0.01 K of the way',
    SCIPY,
  ]),
  (input) => mixedTemperature(input).heatBalanceC,
)
