// Scald times of skin.
import { scaldTime } from '@rillmark/science/scald/scald-time.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const TABLE: From = 'seen: table in the line of Moritz and Henriques 1947, as printed by a maker of anti-scald valves'
const LIST: From = "seen: consumer-safety list, as printed by a children's hospital alliance"
const INFANTS: From = 'seen: scald times of infants, trade association of water-heater makers'
const COMMISSION: From = 'memory: adult third-degree times of a consumer-safety commission'
const SCIPY: From = 'computed: oracles/chemistry.py'
const ROW = 'a row of the table'
const LOOSE = 'the list gives no depth of burn, and sources differ by a factor of two'

const celsius = (fahrenheit: number) => (fahrenheit - 32) / 1.8

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['45 °C, second and third degree', 45, [7200, 10_800], 0, ROW, TABLE],
    ['47 °C, second and third degree', 47, [1200, 2700], 0, ROW, TABLE],
    ['48 °C, second and third degree', 48, [900, 1200], 0, ROW, TABLE],
    ['49 °C, second and third degree', 49, [480, 600], 0, ROW, TABLE],
    ['51 °C, second and third degree', 51, [120, 252], 0, ROW, TABLE],
    ['55 °C, second and third degree', 55, [17, 30], 0, ROW, TABLE],
    ['60 °C, second and third degree', 60, [3, 5], 0, ROW, TABLE],
  ],
  (temperatureC) => {
    const { secondsAdult, secondsAdultFullThickness } = scaldTime({ temperatureC })
    return [secondsAdult, secondsAdultFullThickness]
  },
)

/** As powers of two, so that a factor of two either way is a tolerance of one. */
// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['125 °F, 1.5 to 2 min', celsius(125), Math.log2(Math.sqrt(90 * 120)), 1, LOOSE, LIST],
    ['130 °F', celsius(130), Math.log2(30), 1, LOOSE, LIST],
    ['135 °F', celsius(135), Math.log2(10), 1, LOOSE, LIST],
    ['150 °F', celsius(150), Math.log2(1.5), 1, LOOSE, LIST],
    ['155 °F', celsius(155), Math.log2(1), 1, LOOSE, LIST],
  ],
  (temperatureC) => Math.log2(scaldTime({ temperatureC }).secondsAdult ?? 0),
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['120 °F', celsius(120), 240, { share: 0.02 }, 'degrees of the rows are rounded to 0.1', INFANTS],
    ['140 °F', celsius(140), 1, { share: 0.02 }, 'degrees of the rows are rounded to 0.1', INFANTS],
    ['150 °F', celsius(150), 0.5, { share: 0.02 }, 'degrees of the rows are rounded to 0.1', INFANTS],
  ],
  (temperatureC) => scaldTime({ temperatureC }).secondsChild,
)

/** What is shown, over the published time: at most two. */
// biome-ignore format: a table, one row a line
hold<readonly [fahrenheit: number, seconds: number]>(
  [
    ['150 °F, 2 s: shown is at most twice that', [150, 2], 1, 1, LOOSE, COMMISSION],
    ['140 °F, 6 s: shown is at most twice that', [140, 6], 1, 1, LOOSE, COMMISSION],
    ['130 °F, 30 s: shown is at most twice that', [130, 30], 1, 1, LOOSE, COMMISSION],
    ['120 °F, 5 min: shown is at most twice that', [120, 300], 1, 1, LOOSE, COMMISSION],
  ],
  ([fahrenheit, seconds]) => (scaldTime({ temperatureC: celsius(fahrenheit) }).secondsAdult ?? 0) / seconds,
)

hold<number>(
  oracle.scald.map((row) => [
    `${row.celsius} °C: adult, full thickness, child`,
    row.celsius,
    [row.adult, row.deep, row.child],
    { share: 1e-9 },
    'the same rows joined the same way: rounding',
    SCIPY,
  ]),
  (temperatureC) => {
    const { secondsAdult, secondsAdultFullThickness, secondsChild } = scaldTime({ temperatureC })
    return [secondsAdult, secondsAdultFullThickness, secondsChild]
  },
)

test('trap: the one-line integral of burns misses the table more than fourfold at 49 °C, so the table is joined instead', () => {
  // Henriques 1947 as remembered: 3.1e98 per second, 628 kJ/mol, skin at the temperature of the water.
  const integral = (temperatureC: number) => Math.exp(628_000 / (8.314 * (temperatureC + 273.15))) / 3.1e98
  expect(integral(49) / 60).toBeCloseTo(36, 0)
  expect(scaldTime({ temperatureC: 49 }).secondsAdult).toBe(480)
})
