import { labelPlan } from '@rillmark/casebook/plan/label-plan.ts'
import { makePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { marramInput, marramSystem } from '@rillmark/casebook/plan/marram-plan.fixture.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import type { DocumentContext } from './document-kind.ts'
import { DOCUMENTS } from './registry.ts'

const { make } = entryMaker('marram')
const plan = labelPlan({ plan: makePlan(marramInput({ budget: { samples: 12 } })), taken: [], letters: 'MRH' })
const described = make('building.described', { source: 'file', system: marramSystem() })
const adopted = make('plan.adopted', { round: 'R1', purpose: 'initial', teams: [], plan })

async function made(kind: string, given: { query: object; entries: Parameters<typeof derive>[1] }): Promise<unknown> {
  const document = await DOCUMENTS[kind]?.()
  const query: unknown = document?.query?.parse(given.query)
  const state = derive('marram', given.entries)
  return document?.make({ investigation: 'marram', state, query } as unknown as DocumentContext)
}

test.each(['labels.pdf', 'run-sheets.pdf', 'kit-list.pdf'])('%s is a PDF of the adopted round', async (kind) => {
  const pdf = await made(kind, { query: { round: 'R1', paper: 'letter' }, entries: [described, adopted] })
  expect(Buffer.from(pdf as Uint8Array).toString('latin1', 0, 5)).toBe('%PDF-')
})

test('without an adopted plan the papers say what is wanting', async () => {
  expect(await made('labels.pdf', { query: {}, entries: [described] })).toMatchObject({ issues: [{ path: 'round' }] })
})

test('a team that has no stops gets an empty sheet, one out of range is refused', async () => {
  const pdf = await made('run-sheets.pdf', { query: { team: '9' }, entries: [described, adopted] })
  expect((pdf as Uint8Array).length).toBeGreaterThan(1000)
  await expect(made('run-sheets.pdf', { query: { team: '0' }, entries: [described, adopted] })).rejects.toThrow('>=1')
})
