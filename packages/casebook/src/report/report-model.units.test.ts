import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { type DisplayUnits, US_UNITS } from '../units/display-units.ts'
import { dayOfRecord } from './day-of-record.ts'
import { reportEntries } from './report.fixture.ts'
import { reportModel } from './report-model.ts'

const state = derive('marram-house', reportEntries())
const modelOf = (variant: 'full' | 'redacted', units?: DisplayUnits) =>
  reportModel(state, {
    head: { sequence: state.record.entries.length, hash: 'a'.repeat(64) },
    variant,
    today: dayOfRecord(state),
    units,
  })
const textOf = (variant: 'full' | 'redacted', units?: DisplayUnits): string => JSON.stringify(modelOf(variant, units))

test.each(['full', 'redacted'] as const)(
  '[RPT14] the %s report speaks in the units of its reader and says so',
  (variant) => {
    const [metric, us] = [textOf(variant), textOf(variant, US_UNITS)]
    // 70 °C = 158 °F, 71.5 °C = 160.7 °F: the definition of the scale
    expect(metric).toMatch(/70 °C for 30 min/)
    expect(metric).toMatch(/71\.5 °C for 31 min/)
    expect(metric).not.toMatch(/°F|US gal/)
    expect(us).toMatch(/158 °F for 30 min/)
    expect(us).toMatch(/160\.7 °F for 31 min/)
    expect(us).toContain('told in °F, US gal, in, ft and lb for the reader')
  },
)

test('[RPT14] counts stay as the laboratory reported them unless the reader asks for one volume', () => {
  expect(textOf('full', US_UNITS)).toContain('Values stand as the laboratory reported them')
  const perLitre = textOf('full', { ...US_UNITS, count: 'per L' })
  expect(perLitre).toContain('Counts in water are told per L')
  expect(perLitre).toMatch(/\d \d{3} CFU\/L/)
  expect(perLitre).toContain('fewer than 50 CFU/L')
})

test('[RPT14] in US units °C is left only in what people typed and in the titles of sources', () => {
  const { sources } = modelOf('full', US_UNITS)
  const left = [...textOf('full', US_UNITS).matchAll(/"(?:[^"\\]|\\.)*\d °C[^"]*"/g)].map(([words]) => words)
  const citations = new Set(sources.map(({ citation }) => JSON.stringify(citation)))
  const quoted = left.filter((words) => !/restated/.test(words) && !citations.has(words))
  expect(quoted).toEqual([expect.stringContaining('prove 55 °C at every return')])
})
