// When in the day water is drawn, and how long showers last.
import table from '@rillmark/reference/network/profiles.json' with { type: 'json' }
import { gammaCdf } from '@rillmark/science/distributions/gamma.ts'
import { dayPattern, type DayPatternId } from '@rillmark/science/network/day-pattern.ts'
import { drawsOf } from '@rillmark/science/network/draw-schedule.ts'
import { expect, test } from 'vitest'
import { type From, hold } from '../rows.ts'

const DUTCH: From = 'seen: pysimdeum, open data of the Dutch end-use model'
const KITCHEN: From = 'computed: 96 quarter hours of the kitchen tap of pysimdeum (seen), added up'
const SINKS: From = 'seen: schedules_config.json of OpenStudio-HPXML, read as beginning at 04:00'
const PRINTED = 'shares are printed to a tenth of a percent and add up to 100.2 and 99.9'

const percent = (id: DayPatternId, [from, to]: [number, number]) => {
  const { usedBefore } = dayPattern(id)
  return 100 * ((usedBefore[to] ?? 0) - (usedBefore[from] ?? 0))
}

// biome-ignore format: a table, one row a line
hold<[number, number]>(
  [
    ['kitchen, 17 to 18 h', [17, 18], 18.2, { share: 3e-3 }, PRINTED, KITCHEN],
    ['kitchen, 12 to 13 h', [12, 13], 9.3, { share: 3e-3 }, PRINTED, KITCHEN],
    ['kitchen, 1 to 4 h', [1, 4], 0, 1e-12, 'nothing is drawn', KITCHEN],
  ],
  (hours) => percent('kitchen', hours),
)

// biome-ignore format: a table, one row a line
hold<[number, number]>(
  [
    ['trap: sinks are lowest at 2 to 4 h, not where the printed list begins', [2, 4], 1.0, { share: 3e-3 }, PRINTED, SINKS],
    ['sinks, 8 to 9 h', [8, 9], 6.6, { share: 3e-3 }, PRINTED, SINKS],
    ['sinks, 18 to 19 h', [18, 19], 7.5, { share: 3e-3 }, PRINTED, SINKS],
  ],
  (hours) => percent('sink', hours),
)

/** Share of a normal distribution below z, from the gamma distribution of shape one half. */
const below = (z: number) => (1 + Math.sign(z) * gammaCdf((z * z) / 2, { shape: 0.5 })) / 2

test('half of the showers fall when people get up (computed: normal times of the Dutch diary, 07:00 and 08:00, 1 h)', () => {
  const shares = (id: DayPatternId) => table.profiles.find((each) => each.id === id)?.percentByHour ?? []
  const sinks = shares('sink').reduce((a, b) => a + b, 0)
  shares('shower').forEach((percentOfHour, hour) => {
    const up = table.diary.map(({ getsUpAtHour, spreadHours }) => {
      const z = (at: number) => (at - getsUpAtHour) / spreadHours
      return 100 * (below(z(hour + 1)) - below(z(hour)))
    })
    const risen = up.reduce((a, b) => a + b, 0) / up.length
    const want = (risen + (100 * (shares('sink')[hour] ?? 0)) / sinks) / 2
    expect(Math.abs(percentOfHour - want)).toBeLessThan(0.006)
  })
})

const showers = (minutes: number) => {
  const DAYS = 100
  const lengths = Array.from({ length: DAYS }, (_, seed) =>
    drawsOf({
      outletId: 's',
      seed,
      eventsPerDay: 100,
      minutes,
      flowLPerMin: 8,
      durations: 'chi-square',
      dayPattern: 'even',
    }),
  ).flatMap((draws) => draws.map((draw) => (draw.minutes * draw.flowLPerMin) / 8))
  const mean = lengths.reduce((a, b) => a + b, 0) / lengths.length
  const spread = Math.sqrt(lengths.reduce((sum, each) => sum + (each - mean) ** 2, 0) / lengths.length)
  return [mean, spread]
}

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['trap: the degrees of freedom of a shower are its mean in minutes: mean and spread of 8.8 min', 8.8, [8.8, 4.2], 0.15, 'three standard errors of 10,000 draws and, for the mean of each day is kept, a hundredth of the variance', DUTCH],
  ],
  showers,
)
