import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { calibrate } from '@rillmark/casebook/calibration/calibrate.ts'
import { readingsOf } from '@rillmark/casebook/calibration/readings-of.ts'
import { custodyView } from '@rillmark/casebook/custody/custody-view.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { latestPrediction } from '@rillmark/casebook/conditions/latest-prediction.ts'
import { makePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { planInputFrom } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { positivity } from '@rillmark/casebook/findings/positivity.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import { followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { buildApp } from '@rillmark/server/api/app.ts'
import { quickSignatureCheck } from '@rillmark/server/devices/check-signature.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { buildDemo, DEMO_INVESTIGATION } from './build.ts'
import { ON_THE_DAY } from './scenario/house-water.ts'
import { signedByDevice } from './signing.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-demo-'))
const data = openData(folder)
const app = await buildApp({ data, appFolder: folder, loopbackOnly: false, log: () => undefined })
const entriesAt = `/api/investigations/${DEMO_INVESTIGATION}/entries`
const refused: unknown[] = []
let state = derive(DEMO_INVESTIGATION, [])

/** Pushes and pulls through the API, as a device does. */
beforeAll(async () => {
  await buildDemo(async (entries) => {
    for (let at = 0; at < entries.length; at += 200) {
      const answer = await app.inject({
        method: 'POST',
        url: entriesAt,
        payload: { entries: entries.slice(at, at + 200) },
      })
      refused.push(...answer.json<{ refused: unknown[] }>().refused)
    }
  })
  const pulled: Entry[] = []
  for (;;) {
    const answer = await app.inject({ url: `${entriesAt}?after=${pulled.length}&limit=500` })
    const { links } = answer.json<{ links: { entry: Entry }[] }>()
    if (links.length === 0) break
    pulled.push(...links.map(({ entry }) => entry))
  }
  state = derive(DEMO_INVESTIGATION, pulled)
}, 60_000)

afterAll(async () => {
  await app.close()
  rmSync(folder, { recursive: true, force: true })
})

test('the example holds five cases, a described house and three rounds, and nothing in it was refused', () => {
  expect(refused).toEqual([])
  expect(state.cases.cases.size).toBe(5)
  expect(state.building.system?.components.filter(({ kind }) => kind === 'storage-heater')).toHaveLength(2)
  expect(state.building.system?.supply.disinfectant.kind).toBe('chloramine')
  expect([...state.plan.rounds.keys()]).toEqual(['R1', 'R2', 'R3'])
})

test('the desk and the phone joined, and signed everything they wrote; the same example has the same signatures', async () => {
  expect([...state.devices.values()].map(({ name, role }) => [name, role])).toEqual([
    ['Desk of R. Vale', 'lead'],
    ['Phone of T. Okoro', 'sampler'],
    ['Phone of J. Brandt', 'sampler'],
  ])
  const { entries } = state.record
  const links = linkEntries(emptyHead(DEMO_INVESTIGATION), { entries, received: '2026-05-12T12:00:00.000Z' })
  expect(
    verifyChain(links, { investigation: DEMO_INVESTIGATION, checkSignature: quickSignatureCheck() }),
  ).toMatchObject({ sound: true, signed: entries.length, unsigned: 0 })
  const [first] = entries
  expect(first === undefined ? '' : signedByDevice(first).signature).toEqual(first?.signature)
})

test('one box was watched all the way: its logger says within, and the courier accepted it on a phone of his own', () => {
  const boxes = custodyView(state, Date.parse('2026-05-12T12:00:00.000Z')).consignments
  expect(boxes.map(({ code, temperature }) => [code, temperature.judgement])).toEqual([
    ['Box 1', 'within, as far as measured'],
    ['Box 2', 'within, as far as measured'],
    ['Box 3', 'within'],
  ])
  const chain = boxes.map(({ chain: lines }) => JSON.stringify(lines))
  expect(chain.map((lines) => lines.includes('no signature'))).toEqual([true, true, false])
})

test('in the first round only riser C is positive', () => {
  const rows = sampleRows(state).filter(({ round, riser }) => round === 'R1' && riser !== undefined)
  const positive = positivity(rows, 'riser').filter((group) => group.positive > 0)
  expect(new Set(positive.map(({ words }) => words))).toEqual(new Set(['riser C']))
})

test('the positive of the second round restarted the clock, and the rule is not met yet', () => {
  const { schedule, outcomes } = followUpView(state, '2026-05-12')
  expect(outcomes.map(({ outcome }) => outcome)).toEqual(['positive', 'positive', 'negative'])
  expect(schedule?.rounds.filter((round) => round.state === 'negative')).toHaveLength(1)
  expect(schedule?.closing.met).toBe(false)
})

test('what was predicted speaks of the house as it is described, and its next plan would cite it', () => {
  const latest = latestPrediction(state)
  expect(latest?.stale).toBe(false)
  const { balance, repeats, places } = latest?.entry.body ?? {}
  expect(repeats).toBe(true)
  expect(balance?.massErrorFraction).toBeLessThan(0.001)
  expect(balance?.energyErrorFraction).toBeLessThan(0.001)
  // the tap that the walk found unused never moves
  expect(places?.filter(({ place }) => place === 'basin-tap-d208').map(({ neverMoves }) => neverMoves)).toEqual([
    true,
    true,
  ])
  const input = planInputFrom(state, { budget: { samples: 74 } })
  const plan = input === undefined ? undefined : makePlan(input)
  const cited =
    plan?.stops.flatMap(({ reasons }) => reasons.filter(({ obligation }) => obligation === 'predicted')) ?? []
  expect(cited.length).toBeGreaterThan(0)
  for (const { evidence } of cited) expect(evidence).toEqual([latest?.entry.id])
})

test('told from another day, everything moves by whole weeks and is taken in all the same', async () => {
  const moved: Entry[] = []
  await buildDemo(async (entries) => void moved.push(...entries), { today: '2027-01-14' })
  const weeks = (Date.parse(moved[0]?.instant ?? '') - Date.parse('2026-03-02T09:10:00.000Z')) / (7 * 86_400_000)
  expect(weeks).toBe(35)
})

// The house of the example is simulated as it truly was; a fit sees its description and the readings alone.
test('[CLB24] of the first round’s readings the fit names the return of riser C, with its flow; of the second’s, when it was balanced, nothing', () => {
  const first = fitOf('R1')
  expect(first.findings).toMatchObject([{ kind: 'slow loop', words: expect.stringContaining('riser C') }])
  const { lower = Number.NaN, upper = Number.NaN } = first.findings[0]?.size?.range ?? {}
  const flow = ON_THE_DAY['R1']?.loopFlowLPerMin?.['hot-return-hot-c-f6-to-return-main-c'] ?? Number.NaN
  expect(flow).toBeGreaterThan(lower)
  expect(flow).toBeLessThan(upper)
  const second = fitOf('R2')
  for (const { findings, unexplained, inputs } of [{ ...first, findings: [] }, second]) {
    expect({ findings, unexplained, strained: inputs.filter(({ strained }) => strained) }).toEqual({
      findings: [],
      unexplained: [],
      strained: [],
    })
  }
}, 240_000)

function fitOf(round: string) {
  const { system } = state.building
  if (system === undefined) throw new Error('The house is not described')
  const fit = calibrate(system, { readings: readingsOf(state, new Set([round])) })
  if (fit.kind === 'not fitted') throw new Error(fit.why)
  return fit
}
