import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { afterAll, expect, test } from 'vitest'
import { openData } from '../data/open-data.ts'
import { buildApp } from './app.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-calculations-'))
const data = openData(folder)
const app = await buildApp({ data, appFolder: join(folder, 'no-app'), loopbackOnly: true, log: () => undefined })
const headers = { host: 'localhost:8710' }
afterAll(async () => {
  await app.close()
  await data.ledger.close()
  rmSync(folder, { recursive: true, force: true })
})

test('[SRV20] others are answered while a long calculation runs, and it answers as ever', async () => {
  const input = { cfuPerL: 1000, minutes: 8, perYear: 300, draws: 500_000 }
  const began = performance.now()
  const turnsMs = [began]
  const clock = setInterval(() => turnsMs.push(performance.now()), 5)
  const long = app.inject({ method: 'POST', url: '/api/calculations/shower-risk', headers, payload: input })
  await Promise.all([long, app.inject({ url: '/api/health', headers })])
  clearInterval(clock)
  turnsMs.push(performance.now())
  const longestGapMs = Math.max(...turnsMs.slice(1).map((turn, at) => turn - (turnsMs[at] ?? 0)))
  // on this thread the run would be one gap of nearly all the time
  expect(longestGapMs).toBeLessThan((performance.now() - began) / 2)
  const { result } = (await long).json<{ result: unknown }>()
  expect(result).toEqual(Reflect.get(runCalculation({ id: 'shower-risk', input }), 'result'))
})

test('[SRV20] what is wrong with the input of a long calculation is told as for a short one', async () => {
  const payload = { cfuPerL: -1, minutes: 8, perYear: 300, draws: 1e9 }
  const answer = await app.inject({ method: 'POST', url: '/api/calculations/shower-risk', headers, payload })
  expect([answer.statusCode, answer.json<{ issues: { path: string }[] }>().issues.map(({ path }) => path)]).toEqual([
    422,
    ['cfuPerL', 'draws'],
  ])
})

test('core-genome profiles of many isolates fit into one request', async () => {
  const alleles = Array.from({ length: 3000 }, (_, locus) => 100 + (locus % 800))
  const profiles = Array.from({ length: 300 }, (_, at) => ({ id: `isolate ${at}`, alleles }))
  const payload = { profiles }
  expect(JSON.stringify(payload).length).toBeGreaterThan(3_000_000)
  const answer = await app.inject({ method: 'POST', url: '/api/calculations/allele-distance', headers, payload })
  expect(answer.statusCode).toBe(200)
  expect(answer.json<{ result: { identicalPairCount: number } }>().result.identicalPairCount).toBe((300 * 299) / 2)
})
