import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildGraph } from '../building/graph.ts'
import { returnWays } from './return-ways.ts'
import { settleFlows, type StatedFlow } from './settled-flows.ts'
import { part, pipe } from './small-systems.fixture.ts'

/** A collector past so many risers: each has a leg, and a stretch of collector to the one before, the first to the heater. */
function collector(risers: number) {
  const ids = Array.from({ length: risers }, (_, at) => at)
  const components = [
    part('heater storage-heater'),
    ...ids.flatMap((at) => [part(`top-${at} junction`), part(`joint-${at} junction`)]),
  ]
  const pipes = ids.flatMap((at) => [
    pipe(`hot heater>top-${at}`),
    pipe(`hot-return top-${at}>joint-${at}`),
    pipe(`hot-return joint-${at}>${at === 0 ? 'heater' : `joint-${at - 1}`}`),
  ])
  return { graph: buildGraph({ components, pipes }), pipes }
}

/** The flow of every return, given that of each leg. */
function flowsOf(pipes: ReturnType<typeof collector>['pipes'], legs: readonly number[]): StatedFlow[] {
  return pipes
    .filter(({ circuit }) => circuit === 'hot-return')
    .map(({ id, from, to }) => {
      const at = Number(from.split('-')[1])
      const flowLPerMin = from.startsWith('top') ? (legs[at] ?? 0) : legs.slice(at).reduce((sum, leg) => sum + leg, 0)
      return { pipe: id, from, to, flowLPerMin, spare: false }
    })
}

const cases = fc
  .array(fc.integer({ min: 1, max: 50 }), { minLength: 1, maxLength: 8 })
  .chain((legs) =>
    fc.tuple(fc.constant(legs), fc.array(fc.boolean(), { minLength: legs.length * 2, maxLength: legs.length * 2 })),
  )

test('[SIM2] of any stated flows that agree, those that stand leave the rest with what was stated', () => {
  fc.assert(
    fc.property(cases, ([legs, isStated]) => {
      const { graph, pipes } = collector(legs.length)
      const stated = flowsOf(pipes, legs).filter((_, at) => isStated[at])
      const { stand, follow } = settleFlows(returnWays(graph), stated)
      expect(stand.size + follow.length).toBe(stated.length)
      for (const { stated: flow, impliedLPerMin, agrees } of follow) {
        expect(impliedLPerMin).toBeCloseTo(flow.flowLPerMin, 9)
        expect(agrees).toBe(true)
      }
      // as many as there are ways round can stand: one for each leg
      expect(stand.size).toBeLessThanOrEqual(legs.length)
    }),
  )
})

test('[SIM2] where all flows are stated those of the legs stand', () => {
  const { graph, pipes } = collector(4)
  const { stand, follow } = settleFlows(returnWays(graph), flowsOf(pipes, [3, 2, 4, 1]))
  expect([...stand.keys()].sort()).toEqual([0, 1, 2, 3].map((at) => `hot-return top-${at}>joint-${at}`))
  expect(follow).toHaveLength(4)
})

test('[SIM2] a flow that says something else than the others is found', () => {
  const { graph, pipes } = collector(3)
  const stated = flowsOf(pipes, [3, 2, 4]).map((flow) =>
    flow.from === 'joint-0' ? { ...flow, flowLPerMin: 20 } : flow,
  )
  const wrong = settleFlows(returnWays(graph), stated).follow.filter(({ agrees }) => !agrees)
  expect(wrong.map(({ stated: flow, impliedLPerMin }) => [flow.pipe, impliedLPerMin])).toEqual([
    ['hot-return joint-0>heater', 9],
  ])
})
