import type { CheckInput } from './check-parts.ts'
import { placeOf } from './check-parts.ts'
import type { Reach } from './graph.ts'
import { hasCircuit, reachOf } from './graph.ts'
import { assumedHot } from './assumptions.ts'
import { kindWord } from './labels.ts'
import type { Circuit, Component, Use } from './water-system.ts'
import { isHeater, isOutlet } from './water-system.ts'

const FED: readonly Circuit[] = ['cold', 'hot', 'tempered']

const SOURCE_WORDS: Record<Circuit, string> = {
  cold: 'a way of cold pipes from a supply entry',
  hot: 'a way of hot pipes from a heater',
  tempered: 'a way of tempered pipes from a mixing valve',
  'hot-return': 'a way of return pipes to a heater',
}

/** Whether water comes to every outlet, heater and mixing valve on each circuit that is drawn to it. */
export function checkFeeds(input: CheckInput): void {
  const reaches = new Map(FED.map((circuit) => [circuit, reachOf(input.graph, { circuit })] as const))
  checkEnds(input)
  for (const component of input.components) {
    if (isOutlet(component)) checkOutlet(input, { component, reaches })
    else if (isHeater(component)) checkHeater(input, { component, reaches })
    else if (component.kind === 'mixing-valve') checkMixingValve(input, { component, reaches })
    else if (component.kind === 'junction') checkCross(input, component)
  }
}

function checkEnds({ components, report }: CheckInput): void {
  if (!components.some((one) => one.kind === 'supply-entry'))
    report({ at: 'components', expected: 'at least one supply entry', received: 'none' })
  if (!components.some(isOutlet))
    report({ at: 'components', expected: 'at least one outlet or device', received: 'none', severity: 'warning' })
}

interface Fed {
  component: Component
  reaches: ReadonlyMap<Circuit, Reach>
}

function checkOutlet(input: CheckInput, { component, reaches }: Fed): void {
  const at = placeOf(input, { thing: component })
  for (const [circuit, reach] of reaches)
    if (hasCircuit(input.graph, { id: component.id, circuit }) && !reach.has(component.id))
      input.report({ at, expected: SOURCE_WORDS[circuit], received: 'none', component: component.id })
  const warm = (['hot', 'tempered'] as const).some((circuit) => hasCircuit(input.graph, { id: component.id, circuit }))
  if (warm || input.graph.pipesAt(component.id).length === 0) return
  const mixToC = mixAsked(component.use)
  const asked = mixToC !== undefined && mixToC > (input.supply?.temperatureC ?? mixToC)
  if (asked || assumedHot(component.kind))
    input.report({
      at,
      expected: 'a hot or tempered pipe',
      received: asked ? `cold pipes only, and water mixed to ${mixToC} °C` : 'cold pipes only',
      severity: asked ? 'error' : 'warning',
      component: component.id,
    })
}

/** The highest temperature an outlet's use asks for. */
export function mixAsked(use: Use | undefined): number | undefined {
  if (use === undefined || use.pattern === 'unused') return undefined
  const draws = use.pattern === 'schedule' ? use.draws.map((draw) => draw.mixToC) : []
  const all = [use.mixToC, ...draws].filter((mixToC) => mixToC !== undefined)
  return all.length === 0 ? undefined : all.reduce((a, b) => Math.max(a, b))
}

function checkHeater(input: CheckInput, { component, reaches }: Fed): void {
  const { id } = component
  const at = placeOf(input, { thing: component })
  if (reaches.get('cold')?.has(id) !== true)
    input.report({ at, expected: SOURCE_WORDS.cold, received: 'none', component: id })
  if (!hasCircuit(input.graph, { id, circuit: 'hot' }))
    input.report({ at, expected: 'a hot pipe leaving it', received: 'none', severity: 'warning', component: id })
}

function checkMixingValve(input: CheckInput, { component, reaches }: Fed): void {
  const { id } = component
  const at = placeOf(input, { thing: component })
  for (const circuit of ['hot', 'cold'] as const)
    if (reaches.get(circuit)?.has(id) !== true)
      input.report({ at, expected: SOURCE_WORDS[circuit], received: 'none', component: id })
  if (!hasCircuit(input.graph, { id, circuit: 'tempered' }))
    input.report({ at, expected: 'a tempered pipe leaving it', received: 'none', component: id })
}

function checkCross(input: CheckInput, component: Component): void {
  const { id } = component
  const cold = hasCircuit(input.graph, { id, circuit: 'cold' })
  const other = FED.find((circuit) => circuit !== 'cold' && hasCircuit(input.graph, { id, circuit }))
  if (!cold || other === undefined) return
  input.report({
    at: placeOf(input, { thing: component }),
    expected: `pipes of one water at a ${kindWord(component.kind)}`,
    received: `cold and ${other} joined`,
    severity: 'warning',
    component: id,
  })
}
