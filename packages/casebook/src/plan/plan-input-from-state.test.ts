import { expect, test } from 'vitest'
import { isOutlet } from '../building/water-system.ts'
import { count, NEGATIVE, roundWriter } from '../follow-up/follow-up.fixture.ts'
import { derive } from '../state/derive.ts'
import { makePlan } from './make-plan.ts'
import { marramInput, marramSystem } from './marram-plan.fixture.ts'
import { pointsOfLastRound, samplesOfLastRound } from './plan-input-from-state.ts'

const system = marramSystem()
const outlets = system.components.filter(isOutlet).map(({ id }) => id)
const write = roundWriter()
const [first = '', second = '', third = ''] = [outlets.at(0), outlets.at(-1), outlets.at(-2)]

/** R1 found Legionella at two outlets, of which R2 sampled one beside others. */
function afterTwoRounds() {
  const sampled = outlets.slice(0, 30).concat(second)
  const { body, ...rest } = write.planned('R2', sampled) as ReturnType<typeof write.planned> & { kind: 'plan.adopted' }
  const stops = body.plan.stops.map((stop) => (sampled.includes(stop.id) ? { ...stop, component: stop.id } : stop))
  const r2 = { ...rest, body: { ...body, plan: { ...body.plan, stops, totals: { ...body.plan.totals, samples: 73 } } } }
  const at = (label: string, component: string, more: object = {}) =>
    write.sample({ date: '2026-01-10', round: 'R1', label, component, ...more })
  return derive('marram-house', [
    write.on('2026-01-01')('building.described', { source: 'file', system }),
    write.adopted('R1', 'initial'),
    at('A', second),
    at('B', third),
    at('C', first),
    at('D', first, { sampleKind: 'field-blank' }),
    write.result('A', count(20)),
    write.result('B', count(2)),
    write.result('C', NEGATIVE),
    write.result('D', count(5)),
    r2 as never,
  ])
}

test('[PLN22] a follow-up asks for the points of the last round, marks those where Legionella was found, and adds those it left out', () => {
  const state = afterTwoRounds()
  const points = pointsOfLastRound(state)
  expect(points).toHaveLength(32)
  expect(points.filter(({ found }) => found === true).map(({ component }) => component)).toEqual([second, third])
  expect(points.at(-1)?.text).toBe('Legionella was found here (B): follow-up looks again.')
  expect(samplesOfLastRound(state)).toBe(73)
})

test('[PLN22] where the budget ends among the points asked for, those where Legionella was found stay longest', () => {
  const asked = pointsOfLastRound(afterTwoRounds())
  const short = { budget: { samples: 10 }, used: [], sweep: [], history: [] }
  const inPlan = (input: Parameters<typeof marramInput>[0]): (string | undefined)[] =>
    makePlan(marramInput({ ...short, ...input })).stops.map(({ component }) => component)
  expect(inPlan({ asked })).toEqual(expect.arrayContaining([second, third]))
  const unmarked = asked.map(({ component, text }) => ({ component, text }))
  expect(inPlan({ asked: unmarked })).not.toContain(second)
})
