import { execFileSync } from 'node:child_process'
import { makeLabel } from '@rillmark/casebook/label/label.ts'
import { kitList } from '@rillmark/casebook/plan/kit-list.ts'
import { labelPlan, labelsOf } from '@rillmark/casebook/plan/label-plan.ts'
import { makePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { marramInput } from '@rillmark/casebook/plan/marram-plan.fixture.ts'
import { PROCEDURES } from '@rillmark/casebook/procedures/procedures.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { describe, expect, test } from 'vitest'
import { dataMatrixSvg } from './data-matrix.ts'
import { kitListPdf } from './kit-list-pdf.ts'
import { labelsPdf } from './labels-pdf.ts'
import { readDataMatrix } from './read-data-matrix.fixture.ts'
import { type RoundPapers, roundPapers } from './round-documents.ts'
import { runSheetsPdf } from './run-sheets-pdf.ts'

const plan = labelPlan({ plan: makePlan(marramInput()), taken: [], letters: 'MRH' })
const papers: RoundPapers = {
  title: 'Marram House',
  round: 'R1',
  plan,
  floors: [{ floor: 0, name: 'Plant' }],
  teams: ['Vale'],
  scheduledOn: '2026-03-04',
  asOf: '2026-03-02T08:15:00.000Z',
  paper: 'a4',
}
const textOf = (pdf: Uint8Array, ...options: string[]): string =>
  execFileSync('pdftotext', [...options, '-', '-'], { input: pdf, encoding: 'utf8' })
const sizesOf = (pdf: Uint8Array): string => execFileSync('pdfinfo', ['-'], { input: pdf, encoding: 'utf8' })

describe('Data Matrix', () => {
  test.each([1, 2, 57, 123, 999, 4096, 9999])(
    'label %i reads back, by a reader written apart from the writer',
    (number) => {
      const { id } = makeLabel({ prefix: 'MRH', number })
      expect(readDataMatrix(dataMatrixSvg(id))).toBe(id)
    },
  )
})

describe('labels', () => {
  const pdf = labelsPdf(papers)
  const text = textOf(pdf)

  test('every label of the plan is printed once, 24 on a page', () => {
    const printed = text.match(/(?<!duplicate of )MRH-\d{4}-\d\d/g) ?? []
    expect(printed.toSorted()).toEqual(labelsOf(plan).toSorted())
    expect(sizesOf(pdf)).toMatch(new RegExp(`Pages: +${Math.ceil(plan.totals.samples / 24)}\\n`))
  })

  test('a label says the kind of sample, the place and the round', () => {
    expect(text).toMatch(/^first flush \+ biofilm swab$/m)
    expect(text).toContain('605 shower')
    expect(text).toContain('floor 6 · riser C · hot')
    expect(text).toContain('plant')
    expect(text).not.toContain('floor 0')
    expect(text).not.toContain('…')
    expect(text).toMatch(/R1 · stop \d+ · Marram House/)
  })

  test('the sheet is A4, or letter where asked', () => {
    expect(sizesOf(pdf)).toContain('(A4)')
    expect(sizesOf(labelsPdf({ ...papers, paper: 'us-letter' }))).toMatch(/612 x 792|letter/)
  })

  test('a plan without samples says so', () => {
    expect(textOf(labelsPdf({ ...papers, plan: { ...plan, stops: [] } }))).toContain(
      'No sample of this round takes a label',
    )
  })

  test('the same round gives the same bytes', () => {
    expect(labelsPdf(papers)).toEqual(pdf)
  })
})

describe('run sheets', () => {
  const asked = { procedures: PROCEDURES, residual: 'Total chlorine' }
  const text = textOf(runSheetsPdf(papers, asked))

  test('every team has its stops in order, under its name', () => {
    expect(text).toContain('Run sheet, round R1, Vale')
    expect(text).toContain('Run sheet, round R1, Team 2')
    const order = plan.stops.flatMap(({ samples }) => samples.flatMap(({ label }) => label ?? []))
    expect(text.match(/MRH-\d{4}-\d\d/g)).toEqual(order)
  })

  test('each caution stands once on a team’s sheet', () => {
    const one = textOf(runSheetsPdf(papers, { ...asked, team: 1 })).replaceAll(/\s+/g, ' ')
    expect(one).not.toContain('Team 2')
    const cautions = one.match(/Caution\. [^.]+\./g) ?? []
    expect(cautions.length).toBeGreaterThan(1)
    expect(new Set(cautions).size).toBe(cautions.length)
  })

  test('readings have blanks for the test that fits the disinfectant', () => {
    expect(text).toContain('Total chlorine')
    expect(text).toContain('Hot °C')
  })
})

test('the kit list prints every row with its number', () => {
  const sections = kitList({ plan, procedures: PROCEDURES, disinfectant: 'chloramine' })
  const text = textOf(kitListPdf(papers, sections), '-layout')
  for (const { title, rows } of sections) {
    expect(text).toContain(title)
    for (const { quantity, item } of rows)
      expect(text, item).toMatch(
        new RegExp(`${quantity} +\\w+ +${item.slice(0, 12).replaceAll(/[.*+?^$()[\]{}|\\]/g, '.')}`),
      )
  }
})

test('papers are of the last adopted round, or of the one asked for; without one they say what is wanting', () => {
  const { make } = entryMaker('marram')
  const adopted = make('plan.adopted', { round: 'R1', purpose: 'initial', teams: ['Vale'], plan })
  const state = derive('marram', [adopted])
  expect(roundPapers(state, {})).toMatchObject({ round: 'R1', paper: 'a4', asOf: adopted.instant })
  expect(roundPapers(state, { round: 'R2' })).toMatchObject({ issues: [{ path: 'round', expected: 'one of R1' }] })
  expect(roundPapers(derive('marram', []), {})).toMatchObject({
    issues: [{ expected: 'an adopted plan; none is adopted yet' }],
  })
})
