import limits from '@rillmark/reference/building/limits.json' with { type: 'json' }
import type { CheckInput } from './check-parts.ts'
import { placeOf } from './check-parts.ts'
import { hasCircuit, otherEnd } from './graph.ts'
import type { Component, Pipe } from './water-system.ts'
import { isHeater } from './water-system.ts'

const AGREEMENT = limits.flowAgreementFraction.value

/** Return pipes joined to each other, with everything they touch. */
interface Loop {
  pipes: Pipe[]
  touched: Component[]
}

/** Whether every loop leaves the hot water, comes back to where it is heated, and is moved by something. */
export function checkLoops(input: CheckInput): void {
  for (const pipe of input.pipes)
    if (pipe.recirculationLPerMin !== undefined && pipe.circuit !== 'hot-return')
      input.report({
        at: placeOf(input, { thing: pipe, fact: 'recirculationLPerMin' }),
        expected: 'a recirculation flow on return pipes only',
        received: `${pipe.recirculationLPerMin} on a ${pipe.circuit} pipe`,
        component: pipe.id,
      })
  const loops = findLoops(input)
  for (const loop of loops) checkLoop(input, loop)
  for (const component of input.components) checkThrough(input, component)
  if (loops.length > 0) return
  for (const pump of input.components)
    if (pump.kind === 'pump' && hasCircuit(input.graph, { id: pump.id, circuit: 'hot' }))
      input.report({
        at: placeOf(input, { thing: pump }),
        expected: 'return pipes for a pump on the hot side',
        received: 'none in this system',
        severity: 'warning',
        component: pump.id,
      })
}

function findLoops({ graph }: CheckInput): Loop[] {
  const seen = new Set<string>()
  const loops: Loop[] = []
  for (const first of graph.pipes.values()) {
    if (first.circuit !== 'hot-return' || seen.has(first.id)) continue
    const loop: Loop = { pipes: [], touched: [] }
    const touched = new Set<string>([first.from])
    const open = [first.from]
    for (let id = open.pop(); id !== undefined; id = open.pop()) {
      const component = graph.components.get(id)
      if (component !== undefined) loop.touched.push(component)
      for (const pipe of graph.pipesAt(id)) {
        if (pipe.circuit !== 'hot-return' || seen.has(pipe.id)) continue
        seen.add(pipe.id)
        loop.pipes.push(pipe)
        const next = otherEnd(pipe, id)
        if (!touched.has(next)) open.push(next)
        touched.add(next)
      }
    }
    loops.push(loop)
  }
  return loops
}

function checkLoop(input: CheckInput, loop: Loop): void {
  const [first] = loop.pipes
  if (first === undefined) return
  const told = { at: placeOf(input, { thing: first }), component: first.id }
  const ends = loop.touched.filter((one) => isHeater(one) || one.kind === 'mixing-valve')
  if (ends.length === 0)
    input.report({ ...told, expected: 'a return that ends at a heater or mixing valve', received: 'no such end' })
  const starts = loop.touched.filter((one) => !ends.includes(one) && carriesHot(input, one))
  if (starts.length === 0)
    input.report({ ...told, expected: 'a return that leaves a hot or tempered pipe', received: 'no such start' })
  const pumps = loop.touched.filter((one) => one.kind === 'pump')
  const fixed = loop.pipes.filter((pipe) => (pipe.recirculationLPerMin ?? 0) > 0)
  const pushed = pumps.length > 0 || input.components.some((one) => one.kind === 'pump' && carriesHot(input, one))
  if (!pushed && fixed.length === 0)
    input.report({ ...told, expected: 'a pump or a recirculation flow on the loop', received: 'neither' })
  checkPumpFlow(input, { pumps, fixed, starts })
}

const carriesHot = ({ graph }: CheckInput, component: Component): boolean =>
  hasCircuit(graph, { id: component.id, circuit: 'hot' }) ||
  hasCircuit(graph, { id: component.id, circuit: 'tempered' })

/** Where every return is fixed and one pump moves them all, their sum is what the pump moves. */
function checkPumpFlow(
  input: CheckInput,
  loop: { pumps: readonly Component[]; fixed: readonly Pipe[]; starts: readonly Component[] },
): void {
  const [pump] = loop.pumps
  if (pump?.flowLPerMin === undefined || loop.pumps.length !== 1) return
  const startIds = new Set(loop.starts.map((one) => one.id))
  const fromStarts = loop.fixed.filter((pipe) => startIds.has(pipe.from) || startIds.has(pipe.to))
  if (fromStarts.length !== loop.starts.length || fromStarts.length === 0) return
  const sum = fromStarts.reduce((total, pipe) => total + (pipe.recirculationLPerMin ?? 0), 0)
  if (Math.abs(sum - pump.flowLPerMin) <= AGREEMENT * sum) return
  input.report({
    at: placeOf(input, { thing: pump, fact: 'flowLPerMin' }),
    expected: `the sum of the returns it moves, ${Number(sum.toFixed(3))} L/min`,
    received: pump.flowLPerMin,
    severity: 'warning',
    component: pump.id,
  })
}

/** Two fixed flows through one plain joint of two return pipes must be the same flow. */
function checkThrough(input: CheckInput, component: Component): void {
  const pipes = input.graph.pipesAt(component.id)
  const [one, two] = pipes
  if (pipes.length !== 2 || one?.circuit !== 'hot-return' || two?.circuit !== 'hot-return') return
  const { recirculationLPerMin: a } = one
  const { recirculationLPerMin: b } = two
  if (a === undefined || b === undefined || Math.abs(a - b) <= AGREEMENT * Math.max(a, b)) return
  input.report({
    at: placeOf(input, { thing: two, fact: 'recirculationLPerMin' }),
    expected: `${a} L/min, what pipe ${one.id} brings to ${component.id}`,
    received: b,
    component: two.id,
  })
}
