// Friction factors and heads lost, against published and recomputed values.
import { frictionFactor } from '@rillmark/science/network/friction.ts'
import { FrictionTable } from '@rillmark/science/network/friction-table.ts'
import { type From, hold } from '../rows.ts'

const FLUIDS: From =
  'seen: fluids, open library of fluid dynamics (github.com/CalebBell/fluids), tests/test_friction.py'
const FITTINGS: From = 'seen: fluids, open library of fluid dynamics (github.com/CalebBell/fluids), tests/test_core.py'
const MANUAL: From =
  'seen: US EPA, EPANET 2.2 user manual, chapter 12 (laminar below Re 2000, Swamee-Jain above 4000, a cubic between)'
const TABLE: From = 'computed: Swamee-Jain or 64/Re with tabled viscosities of water, printed to four or five digits'
const ROUNDED = 'the table is printed to four digits'
const EXACT = 'the same formula, to the digits of the machine'

// biome-ignore format: a table, one row a line
hold<{ reynolds: number; relativeRoughness: number }>(
  [
    ['Swamee-Jain at Re 1e5, e/d 1e-4', { reynolds: 1e5, relativeRoughness: 1e-4 }, 0.018452424431901808, { share: 2e-6 }, 'the library writes 5.74 / Re^0.9 as (6.97 / Re)^0.9, which is 5.73997', FLUIDS],
    ['laminar at Re 128', { reynolds: 128, relativeRoughness: 0 }, 0.5, 1e-15, EXACT, FLUIDS],
    ['Colebrook at Re 1e5, e/d 1e-4', { reynolds: 1e5, relativeRoughness: 1e-4 }, 0.018513866077471648, { share: 0.01 }, 'Swamee and Jain give their formula as within 1 % of Colebrook’s (memory)', FLUIDS],
    ['Churchill 1977 at Re 1e5, e/d 1e-4', { reynolds: 1e5, relativeRoughness: 1e-4 }, 0.018462624566280075, { share: 0.01 }, 'another fit of the same data', FLUIDS],
    ['Haaland at Re 1e5, e/d 1e-4', { reynolds: 1e5, relativeRoughness: 1e-4 }, 0.018265053014793857, { share: 0.015 }, 'another fit of the same data; Haaland’s is within 1.5 % of Colebrook', FLUIDS],
    ['smooth at Re 1e5', { reynolds: 1e5, relativeRoughness: 0 }, 0.01798977308427384, { share: 0.01 }, 'another fit of the same data', FLUIDS],
    ['where laminar flow ends', { reynolds: 2000, relativeRoughness: 1e-3 }, 0.032, 1e-15, EXACT, MANUAL],
    ['just after it', { reynolds: 2000.001, relativeRoughness: 1e-3 }, 0.032, 1e-7, 'the cubic meets it', MANUAL],
    ['table: 20 mm bore, 0.20 L/s, 10 °C', { reynolds: 9747, relativeRoughness: 0.0015 / 20 }, 0.03132, { share: 3e-4 }, ROUNDED, TABLE],
    ['table: the same at 60 °C', { reynolds: 26862, relativeRoughness: 0.0015 / 20 }, 0.02422, { share: 3e-4 }, ROUNDED, TABLE],
    ['table: 13 mm, 0.01 L/s, 10 °C', { reynolds: 750, relativeRoughness: 0.0015 / 13 }, 0.08536, { share: 5e-4 }, 'Re is printed to three digits', TABLE],
    ['table: steel 27.3 mm, 0.30 L/s, 60 °C', { reynolds: 29518, relativeRoughness: 0.15 / 27.3 }, 0.03448, { share: 3e-4 }, ROUNDED, TABLE],
  ],
  frictionFactor,
)

interface Stretch {
  boreMm: number
  roughnessMm: number
  temperatureC: number
  lPerS: number
}

const VISCOSITY = 'four digits are printed; the viscosity of water is IAPWS to a few in 1e4'
// biome-ignore format: a table, one row a line
hold<Stretch>(
  [
    ['copper 20 mm, 0.20 L/s, 10 °C', { boreMm: 20, roughnessMm: 0.0015, temperatureC: 10, lPerS: 0.2 }, 3.2362, { share: 5e-4 }, VISCOSITY, TABLE],
    ['copper 20 mm, 0.20 L/s, 60 °C', { boreMm: 20, roughnessMm: 0.0015, temperatureC: 60, lPerS: 0.2 }, 2.5025, { share: 5e-4 }, VISCOSITY, TABLE],
    ['copper 13 mm, 0.07 L/s, 10 °C', { boreMm: 13, roughnessMm: 0.0015, temperatureC: 10, lPerS: 0.07 }, 4.0845, { share: 5e-4 }, VISCOSITY, TABLE],
    ['PEX 12 mm, 0.07 L/s, 10 °C', { boreMm: 12, roughnessMm: 0.007, temperatureC: 10, lPerS: 0.07 }, 6.0532, { share: 5e-4 }, VISCOSITY, TABLE],
    ['copper 13 mm, 0.01 L/s, 10 °C, laminar', { boreMm: 13, roughnessMm: 0.0015, temperatureC: 10, lPerS: 0.01 }, 0.19, { share: 3e-3 }, 'three digits are printed', TABLE],
    ['steel 27.3 mm, 0.30 L/s, 60 °C', { boreMm: 27.3, roughnessMm: 0.15, temperatureC: 60, lPerS: 0.3 }, 1.6915, { share: 5e-4 }, VISCOSITY, TABLE],
    ['trap: Hazen-Williams with C 150 says 2.644 m for the first, 18 % less', { boreMm: 20, roughnessMm: 0.0015, temperatureC: 10, lPerS: 0.2 }, 2.644 / 0.82, { share: 0.01 }, 'the 18 % is printed to two digits', TABLE],
  ],
  ({ lPerS, ...bore }) => {
    const table = new FrictionTable()
    table.at(table.add(bore), lPerS * 60)
    return table.perM * 100
  },
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['head of a loss coefficient of 10 at 1.5 m/s', 1.5, 1.1471807396001694, 1e-12, EXACT, FITTINGS],
    ['the same at 3 m/s, from 45 000 Pa at 1000 kg/m³', 3, 45_000 / (1000 * 9.80665), 1e-12, EXACT, FITTINGS],
  ],
  (mPerS) => {
    const table = new FrictionTable()
    table.at(table.add({ boreMm: 20, roughnessMm: 0, temperatureC: 20 }), mPerS * (Math.PI / 4) * 0.02 ** 2 * 60_000)
    return table.fitting * 10
  },
)
