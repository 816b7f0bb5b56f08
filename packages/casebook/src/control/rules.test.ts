import { beforeEach, describe, expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

const system = buildSystem(marramHouse)
const [first = '', second = ''] = system.components.filter(({ kind }) => kind === 'shower').map(({ id }) => id)
let maker = entryMaker('marram-house')
let state = derive('marram-house', [])

function check<K extends Kind>(kind: K, body: BodyOf<K>) {
  return checkEntry(state, maker.make(kind, body))
}
function pathsOf<K extends Kind>(kind: K, body: BodyOf<K>): string[] {
  const checked = check(kind, body)
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}
function write<K extends Kind>(kind: K, body: BodyOf<K>): Entry {
  const checked = check(kind, body)
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues))
  state = extend(state, [checked.entry])
  return checked.entry
}

const heat: BodyOf<'measure.ordered'> = {
  measure: 'heat disinfection',
  stage: 'remediation',
  where: 'riser A',
  components: [first, second],
  owner: 'Facility',
  target: { quantity: 'temperature', value: 70, unit: '°C', minutes: 30 },
}
const reading = (value: number, minutes?: number) => ({
  quantity: 'temperature' as const,
  value,
  unit: '°C',
  ...(minutes === undefined ? {} : { minutes }),
})
const at = '2026-03-02T08:00:00.000Z'
const proof = (measure: string, component: string): BodyOf<'measure.achieved'> => ({
  measure,
  component,
  at,
  achieved: reading(71, 30),
  reached: true,
  by: 'R. Vale',
})
const done = (measure: string): BodyOf<'measure.completed'> => ({
  measure,
  completedOn: '2026-03-02',
  outcome: 'carried out',
})
const sampled = (): Entry =>
  maker.make('sample.collected', { round: 'R1', stop: 'S1', label: 'L1', sampleKind: 'bulk-hot', filter: 'none' })

beforeEach(() => {
  maker = entryMaker('marram-house')
  state = derive('marram-house', [maker.make('building.described', { source: 'quick description', system })])
})

test('[CTL1] a measure names components of the described building, each once', () => {
  expect(pathsOf('measure.ordered', { ...heat, components: [first, 'nowhere'] })).toEqual(['body.components'])
  expect(pathsOf('measure.ordered', { ...heat, components: [first, first] })).toEqual(['body.components'])
  expect(pathsOf('measure.ordered', heat)).toEqual([])
})

test('[CTL2] a proof belongs to an ordered measure, at one of its places, at a moment that has come', () => {
  const { id } = write('measure.ordered', heat)
  expect(pathsOf('measure.achieved', proof(maker.make('measure.ordered', heat).id, first))).toEqual(['body.measure'])
  expect(pathsOf('measure.achieved', proof(id, 'supply'))).toEqual(['body.component'])
  expect(pathsOf('measure.achieved', { ...proof(id, first), at: '2027-01-01T00:00:00.000Z' })).toEqual(['body.at'])
  expect(pathsOf('measure.achieved', proof(id, first))).toEqual([])
})

describe('the target', () => {
  test.each([
    [reading(70, 30), []],
    [reading(75, 45), []],
    [reading(69.9, 30), ['body.reached']],
    [reading(70, 29), ['body.reached']],
    [reading(70), ['body.reached']],
    [{ ...reading(160, 30), unit: '°F' }, ['body.reached']],
    [{ quantity: 'free chlorine' as const, value: 90, unit: 'mg/L', minutes: 90 }, ['body.reached']],
  ])('[CTL3] is not said to be reached against what was measured: %j', (achieved, issues) => {
    const { id } = write('measure.ordered', heat)
    expect(pathsOf('measure.achieved', { ...proof(id, first), achieved })).toEqual(issues)
    expect(pathsOf('measure.achieved', { ...proof(id, first), achieved, reached: false })).toEqual([])
  })

  test('[CTL3] is not said to be reached without a measurement', () => {
    const { id } = write('measure.ordered', heat)
    const { achieved: _, ...bare } = proof(id, first)
    expect(pathsOf('measure.achieved', bare)).toEqual(['body.achieved'])
  })
})

test('[CTL4] heat, shock and flush are carried out only when every place has a proof that reached the target', () => {
  state = extend(state, [sampled()])
  const { id } = write('measure.ordered', heat)
  write('measure.achieved', proof(id, first))
  write('measure.achieved', { ...proof(id, second), achieved: reading(64, 30), reached: false })
  expect(pathsOf('measure.completed', done(id))).toEqual(['body.outcome'])
  write('measure.achieved', proof(id, second))
  expect(pathsOf('measure.completed', done(id))).toEqual([])
})

test('[CTL4] other measures need no proof at each place', () => {
  state = extend(state, [sampled()])
  const { id } = write('measure.ordered', { ...heat, measure: 'repair or replace', target: undefined })
  expect(pathsOf('measure.completed', done(id))).toEqual([])
})

test('[CTL5] partly carried out or dropped needs a reason', () => {
  state = extend(state, [sampled()])
  const { id } = write('measure.ordered', heat)
  expect(pathsOf('measure.completed', { ...done(id), outcome: 'partly' })).toEqual(['body.reason'])
  expect(pathsOf('measure.completed', { ...done(id), outcome: 'dropped', reason: '' })).toEqual(['body.reason'])
  expect(pathsOf('measure.completed', { ...done(id), outcome: 'partly', reason: 'room 302 locked' })).toEqual([])
})

test('[CTL6] a measure is completed once, on a day that has come', () => {
  state = extend(state, [sampled()])
  const { id } = write('measure.ordered', { ...heat, measure: 'repair or replace' })
  expect(pathsOf('measure.completed', { ...done(id), completedOn: '2026-03-03' })).toEqual(['body.completedOn'])
  write('measure.completed', done(id))
  expect(pathsOf('measure.completed', done(id))).toEqual(['body.measure'])
})

describe('before sampling', () => {
  const repair: BodyOf<'measure.ordered'> = { ...heat, measure: 'repair or replace', components: [] }

  test('[CTL7] remediation completed before the initial samples needs a reason, and is not refused', () => {
    const { id } = write('measure.ordered', repair)
    expect(pathsOf('measure.completed', done(id))).toEqual(['body.reason'])
    expect(pathsOf('measure.completed', { ...done(id), reason: 'ordered by the authority' })).toEqual([])
  })

  test('[CTL7] so does completing it while the samples of that day were still to come', () => {
    state = extend(state, [sampled()])
    const { id } = write('measure.ordered', repair)
    expect(pathsOf('measure.completed', { ...done(id), completedOn: '2026-03-01' })).toEqual(['body.reason'])
  })

  test('[CTL7] an immediate flush disturbs the water too; a filter or a sign on the door does not', () => {
    const needs = (change: Partial<typeof repair>): string[] => {
      const { id } = write('measure.ordered', { ...repair, stage: 'immediate', ...change })
      return pathsOf('measure.completed', done(id))
    }
    expect(needs({ measure: 'flush' })).toEqual(['body.reason'])
    expect(needs({ measure: 'fit point-of-use filter' })).toEqual([])
    expect(needs({ measure: 'restrict use' })).toEqual([])
  })
})
