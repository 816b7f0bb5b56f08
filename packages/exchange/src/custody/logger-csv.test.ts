import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readLoggerCsv } from './logger-csv.ts'
import { loggerEntries } from './logger-entries.ts'

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)
const read = (text: string, choices: object = {}) => readLoggerCsv(bytes(text), { offset: '+01:00', ...choices })
const at = (instant: string): number => Date.parse(instant)
const good = (text: string, choices: object = {}) => {
  const file = read(text, choices)
  if (!file.ok) throw new TypeError(JSON.stringify(file.issues))
  return file
}

// One series of three readings, as loggers of different habits write it. 08:00 local at +01:00 is 07:00 UTC.
const THREE = [
  [at('2026-03-14T07:00:00Z'), 5],
  [at('2026-03-14T07:05:00Z'), 5.5],
  [at('2026-03-14T07:10:00Z'), 6],
]
const HABITS: [name: string, text: string][] = [
  [
    'comma, ISO local',
    'Time,Temperature (°C)\n2026-03-14 08:00:00,5.0\n2026-03-14 08:05:00,5.5\n2026-03-14 08:10:00,6.0\n',
  ],
  [
    'semicolon, decimal comma, dots',
    'Datum;Uhrzeit;Temperatur [°C]\r\n14.03.2026;08:00;5,0\r\n14.03.2026;08:05;5,5\r\n14.03.2026;08:10;6,0\r\n',
  ],
  [
    'tab, a number first',
    'No.\tDate Time\tCelsius(°C)\n1\t14/03/2026 08:00:00\t5.0\n2\t14/03/2026 08:05:00\t5.5\n3\t14/03/2026 08:10:00\t6\n',
  ],
  [
    'month first, half days, °F',
    'Date,Time,Temp °F\n3/14/2026,8:00 AM,41.0\n3/14/2026,8:05:00 AM,41.9\n3/14/2026,8:10 AM,42.8\n',
  ],
  [
    'UTC written',
    'Timestamp,Temperature °C\n2026-03-14T07:00:00Z,5\n2026-03-14T07:05:00Z,5.5\n2026-03-14T07:10:00.000Z,6\n',
  ],
  ['UTC in the heading', 'Time (UTC),Temp (°C)\n2026-03-14 07:00,5\n2026-03-14 07:05,5.5\n2026-03-14 07:10,6\n'],
  [
    'an offset of its own',
    'Time;Temp deg C\n2026-03-14 09:00 +02:00;5\n2026-03-14 09:05 +02:00;5.5\n2026-03-14 09:10 +02:00;6\n',
  ],
  [
    'lines above the heading',
    'Logger T-17\nInterval;300 s\n\nTime;Temperature °C\n14.03.2026 08:00;5 °C\n14.03.2026 08:05;5,5 °C\n14.03.2026 08:10;6 °C\n',
  ],
  [
    'quoted, comma and decimal comma',
    'Date/Time,"Temp, °C"\n"14.03.2026 08:00","5,0"\n"14.03.2026 08:05","5,5"\n"14.03.2026 08:10","6,0"\n',
  ],
]

describe('[LOG1] the same readings, however a logger writes them', () => {
  test.each(HABITS)('%s', (_, text) => {
    const file = good(text)
    expect(file.readings.map(({ atMs, temperatureC }) => [atMs, temperatureC])).toEqual(THREE)
    expect(file.leftOut).toEqual([])
  })

  test('in UTF-16 and in Windows-1252 too', () => {
    const [, text] = HABITS[0] ?? ['', '']
    const wide = new Uint8Array(Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, 'utf16le')]))
    const narrow = new Uint8Array(Buffer.from(text, 'latin1'))
    for (const content of [wide, narrow])
      expect(readLoggerCsv(content, { offset: '+01:00' })).toMatchObject({
        ok: true,
        unit: 'C',
        readings: { length: 3 },
      })
  })
})

describe('[LOG2] what is wrong is said', () => {
  test('bad rows are left out and named by their line; blank ones are nothing', () => {
    const file = good(
      'Time,Temp (°C)\n2026-03-14 08:00,5\n2026-03-14 08:05,ERR\nyesterday,5\n\n2026-03-14 25:10,5\n2026-03-14 08:15,850\n2026-02-30 08:15,5\n2026-03-14 08:20,6\n',
    )
    expect(file.readings).toHaveLength(2)
    expect(file.leftOut).toEqual([
      { line: 3, why: 'no temperature: "ERR"' },
      { line: 4, why: 'no date and time: "yesterday"' },
      { line: 6, why: 'no date and time: "2026-03-14 25:10"' },
      { line: 7, why: '"850" is no temperature of a cooler' },
      { line: 8, why: 'no date and time: "2026-02-30 08:15"' },
    ])
  })

  test('a line is counted as an editor counts it, also after a cell with a line break', () => {
    const file = good('Time,Temp (°C),Note\n2026-03-14 08:00,5,"lid\nopened"\n2026-03-14 08:05,x,\n')
    expect(file.leftOut).toEqual([{ line: 4, why: 'no temperature: "x"' }])
  })

  test('repeated readings count once, those out of order are put in order, and both are told', () => {
    const file = good(
      'Time,Temp (°C)\n2026-03-14 08:10,6\n2026-03-14 08:00,5\n2026-03-14 08:05,5.5\n2026-03-14 08:05,5.5\n',
    )
    expect(file).toMatchObject({ repeated: 1, outOfOrder: 1 })
    expect(file.readings.map(({ atMs, temperatureC }) => [atMs, temperatureC])).toEqual(THREE)
  })

  test('two temperatures at one moment are no repeat: the later row is left out, and its line and the reason are told', () => {
    // a clock put back in autumn says 02:00 to 02:59 twice
    const file = good(
      'Time,Temp (°C)\n2026-10-25 02:10,4\n2026-10-25 02:40,5\n2026-10-25 02:10,14\n2026-10-25 02:40,15\n2026-10-25 02:40,5\n',
    )
    expect(file.readings.map(({ temperatureC }) => temperatureC)).toEqual([4, 5])
    expect(file.repeated).toBe(1)
    expect(file.leftOut).toEqual([
      { line: 4, why: expect.stringContaining('14 °C where line 2 has 4 °C at the same moment') },
      { line: 5, why: expect.stringContaining('15 °C where line 3 has 5 °C at the same moment') },
    ])
  })

  test.each([
    ['nothing', ''],
    ['no heading', '2026-03-14 08:00,5\n2026-03-14 08:05,6\n'],
    ['only a heading', 'Time,Temp (°C)\n'],
    ['no temperature in it', 'Time,Humidity\n2026-03-14 08:00,5\n'],
    ['a binary file', 'Time,Temp (°C)\0\u0001'],
  ])('%s is refused with what was expected', (_, text) => {
    const file = read(text)
    expect(file).toMatchObject({ ok: false, issues: [{ path: 'file', expected: expect.stringMatching(/\w+ \w+/) }] })
  })
})

describe('[LOG3] nothing is guessed', () => {
  test('a unit the heading does not say is asked for', () => {
    const text = 'Time,Temperature\n2026-03-14 08:00,41\n'
    expect(read(text)).toMatchObject({ ok: false, needs: 'unit' })
    expect(good(text, { unit: 'F' }).readings[0]?.temperatureC).toBe(5)
    expect(good('Time,Temp (°C)\n2026-03-14 08:00,5\n', { unit: 'F' }).unit).toBe('C')
  })

  test('day and month that could stand either way are told as doubtful, and read as chosen', () => {
    const text = 'Time,Temp (°C)\n03/02/2026 08:00,5\n'
    expect(good(text)).toMatchObject({ orderDoubtful: true, order: 'day-month-year' })
    expect(good(text, { order: 'month-day-year' }).readings[0]?.atMs).toBe(at('2026-03-02T07:00:00Z'))
    expect(good('Time,Temp (°C)\n03/14/2026 08:00,5\n')).toMatchObject({
      orderDoubtful: false,
      order: 'month-day-year',
    })
  })

  test('of several temperatures the first is read and the others offered', () => {
    const text = 'Time,Probe 1 temp (°C),Probe 2 temp (°F),Temp alarm\n2026-03-14 08:00,5,50,no\n'
    expect(good(text)).toMatchObject({ column: { at: 1 }, others: [{ column: 2, head: 'Probe 2 temp (°F)' }] })
    expect(good(text, { column: 2 })).toMatchObject({ unit: 'F', readings: [{ temperatureC: 10 }] })
  })
})

test('[LOG4] entries carry every reading once, in pieces of at most 2,000, and add up to the file', () => {
  const readings = Array.from({ length: 4500 }, (_, index) => ({
    atMs: at('2026-03-14T07:00:00Z') + index * 30_000,
    temperatureC: index % 9,
  }))
  const bodies = loggerEntries(readings, {
    consignment: 'Box 1',
    file: { name: 'a.csv', sha256: 'ab'.repeat(32) },
    logger: 'T-17',
  })
  expect(bodies.map(({ series }) => [series?.seconds.length, series?.piece])).toEqual([
    [2000, { number: 1, of: 3 }],
    [2000, { number: 2, of: 3 }],
    [500, { number: 3, of: 3 }],
  ])
  const back = bodies.flatMap(({ series }) =>
    (series?.seconds ?? []).map((seconds, index) => ({
      atMs: at(series?.startedAt ?? '') + seconds * 1000,
      temperatureC: series?.temperatureC[index],
    })),
  )
  expect(back).toEqual(readings)
})

test('[FIL1] whatever bytes come, nothing is thrown', () => {
  const seed = 20261130
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 400 }), fc.string({ unit: 'grapheme', maxLength: 200 }), (noise, text) => {
      readLoggerCsv(noise, { offset: '+00:00' })
      readLoggerCsv(bytes(`Time,Temp (°C)\n${text}\n`), { offset: '+00:00' })
    }),
    { seed, numRuns: 300 },
  )
})
