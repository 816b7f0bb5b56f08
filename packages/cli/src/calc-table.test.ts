import { calculations, findCalculation, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { calculationTable } from './calc-table.ts'

function tableOf(id: string, input?: unknown): string {
  const calculation = findCalculation(id)
  if (calculation === undefined) throw new Error(id)
  const answer = runCalculation({ id, input: input ?? calculation.example.input })
  if ('issues' in answer) throw new Error(JSON.stringify(answer.issues))
  return calculationTable(calculation, answer)
}

test.each(calculations.map(({ id }) => id))(
  '[CLI5] the worked example of %s reads as lines and tables, without JSON',
  (id) => {
    const table = tableOf(id)
    expect(table).toMatch(/^\S.*\(.*version \d+\)\n\nResult\n/)
    expect(table).toContain('\nSources\n')
    expect(table).not.toMatch(/ {2}undefined|NaN|\[object|[{}]/)
  },
)

test('[CLI5] values carry their units, limits stand in one line, a missing limit is said', () => {
  const table = tableOf('neutralizer')
  expect(table).toMatch(/^ {2}capacityMgPerL +1\.7727 mg\/L +residual the dose covers, as Cl2$/m)
  expect(table).toMatch(/^ {2}covered +no +/m)
  expect(tableOf('two-by-two')).toMatch(/^ {2}oddsRatio\.interval +from 7\.3933, no finite upper limit/m)
  expect(tableOf('loop-temperature')).toMatch(/^ {2}name +flowLPerMin \(L\/min\) +inletC \(°C\)/m)
})

test('[CLI5] a p value too small for a number says so, a limit that is missing too', () => {
  const table = tableOf('two-by-two', { exposedCases: 900, exposedWell: 0, unexposedCases: 0, unexposedWell: 900 })
  expect(table).toMatch(/^ {2}fisherTwoSided +less than 1e-300 +p value/m)
  expect(table).toMatch(/^ {2}midP +less than 1e-300 +p value/m)
})

test('[CLI5] a long list is cut short with the number left out', () => {
  const profiles = Array.from({ length: 90 }, (_, index) => ({ id: `i${index}`, alleles: [index, 1, 2] }))
  const table = tableOf('allele-distance', { profiles })
  expect(table).toContain('and 30 more rows')
  expect(table).toContain('and 70 more')
})
