import { fieldReadingsSchema } from '@rillmark/casebook/calibration/field-reading.ts'
import { expect, test } from 'vitest'
import { fieldReadingsCsv } from './field-readings-csv.ts'

test('a table of readings becomes the readings of the format, with limits, and empty cells left out', () => {
  const read = fieldReadingsCsv(
    'component,circuit,temperatureC,residualMgPerL,seconds,at\r\nbasin-1,hot,51.5,,60,07:45\r\nbasin-1,cold,,<0.05,,\r\n\r\n',
  )
  if ('issues' in read) throw new Error(JSON.stringify(read.issues))
  expect(fieldReadingsSchema.parse(read.value).readings).toEqual([
    { component: 'basin-1', circuit: 'hot', temperatureC: 51.5, seconds: 60, at: '07:45' },
    { component: 'basin-1', circuit: 'cold', residualMgPerL: { below: 0.05 } },
  ])
})

test('columns come in any order, parted by semicolons and with decimal commas', () => {
  const read = fieldReadingsCsv('\uFEFFtemperatureC;component;circuit\n>60,5;a;hot\n')
  expect(read).toMatchObject({
    value: { readings: [{ component: 'a', circuit: 'hot', temperatureC: { above: 60.5 } }] },
  })
})

test.each([
  ['component,circuit,warmth\na,hot,50\n', 'line 1'],
  ['circuit,temperatureC\nhot,50\n', 'line 1'],
  ['component,circuit,temperatureC\na,hot,warm\n', 'line 2, temperatureC'],
  ['component,circuit,temperatureC,seconds\na,hot,50,<9\n', 'line 2, seconds'],
])('%j is refused with its line', (text, path) => {
  expect(fieldReadingsCsv(text)).toMatchObject({ issues: [{ path }] })
})
