import type { FitParameter } from '@rillmark/science/estimation/fit-problem.ts'
import { buildGraph, hasCircuit, otherEnd, type SystemGraph } from '../building/graph.ts'
import { type ReturnLeg, returnLegs } from '../building/graph-questions.ts'
import { componentName } from '../building/labels.ts'
import { type Component, isHeater, isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import type { FieldReading } from './field-reading.ts'
import { FITTING } from './figures.ts'
import type { ReasonKind } from './reason-kinds.ts'

/** Something that may not be as described, as the simulation can try it. */
export interface Reason {
  id: string
  kind: ReasonKind
  words: string
  parts: readonly string[]
  /** Inputs of the fit whose place it takes. */
  replaces: readonly string[]
  /** What is tried first; refined afterwards where there is a size. */
  sizes: readonly (number | undefined)[]
  /** How the size is fitted, in its unit. */
  size?: (FitParameter & { words: string; unit: string; prior: { centre: number; sd: number } }) | undefined
  override: (size: number | undefined) => ConditionsOverrides
  /** The riser, where it stands for others there too. */
  standsFor?: string | undefined
}

interface Asked {
  system: WaterSystem
  /** The readings that are not explained. */
  unexplained: readonly FieldReading[]
  /** Inputs that had to go far from what was believed, with where they went. */
  strained: readonly StrainedInput[]
}

export interface StrainedInput {
  id: string
  value: number
  parts: readonly string[]
}

/**
 * The reasons to try for readings that are not explained, likeliest first: returns and heaters, mixing valves and branches of the places that
 * were read, then taps that mix, there and elsewhere.
 */
export function reasonsFor({ system, unexplained, strained }: Asked): Reason[] {
  const graph = buildGraph(system)
  const near = nearOf(graph, { unexplained, strained })
  const hot = unexplained.some(({ circuit }) => circuit !== 'cold') || strained.length > 0
  const valves = system.components.filter(({ id, kind }) => kind === 'mixing-valve' && near(id))
  const legs = returnLegs(graph)
  return [
    ...(hot ? legs.flatMap((leg) => stopped(system, leg)) : []),
    ...(hot ? legs.filter(({ from }) => near(from)).flatMap((leg) => slow(system, leg)) : []),
    ...(hot ? system.components.filter(isHeater).flatMap((one) => heaterLow(one, strained)) : []),
    ...valves.flatMap((valve) => valveReasons(graph, valve)),
    ...unexplained.flatMap((reading) => deadLeg(graph, reading)).filter(firstOfItsId()),
    ...mixersToTry(graph, unexplained).flatMap(crossings),
  ]
}

/** The reason with this id, to take one as given that was found before; undefined where the building has no such part. */
export function reasonOfId(system: WaterSystem, id: string): Reason | undefined {
  const graph = buildGraph(system)
  const at = id.slice(id.indexOf(':') + 1)
  const [component, branch] = [graph.components.get(at), graph.pipes.get(at)]
  const all = [
    ...returnLegs(graph)
      .filter(({ pipes }) => pipes.includes(at))
      .flatMap((leg) => [...stopped(system, leg), ...slow(system, leg)]),
    ...(component === undefined ? [] : ofComponent(graph, component)),
    ...(branch === undefined
      ? []
      : [branch.from, branch.to].flatMap((end) => deadLeg(graph, { component: end, circuit: branch.circuit }))),
  ]
  return all.find((one) => one.id === id)
}

function ofComponent(graph: SystemGraph, component: Component): Reason[] {
  if (isHeater(component)) return heaterLow(component, [])
  if (component.kind === 'mixing-valve') return valveReasons(graph, component)
  return isOutlet(component) && isMixer(graph, component) ? crossings(component) : []
}

function firstOfItsId(): (reason: Reason) => boolean {
  const seen = new Set<string>()
  return ({ id }) => !seen.has(id) && seen.add(id) !== undefined
}

/** True for parts on the risers of the places read, and for all that are on no riser. */
function nearOf(graph: SystemGraph, { unexplained, strained }: Omit<Asked, 'system'>): (id: string) => boolean {
  const places = [
    ...unexplained.map(({ component }) => component),
    ...strained.flatMap(({ parts }) => parts.flatMap((id) => endsOf(graph, id))),
  ]
  const risers = new Set(places.map((id) => graph.components.get(id)?.riser))
  return (id) => {
    const riser = graph.components.get(id)?.riser
    return riser === undefined || risers.has(undefined) || risers.has(riser)
  }
}

/**
 * Taps that mix: those that were read, then one on every riser, since cold water that crosses shows far away and mixers of one riser can
 * hardly be told apart by it, then the others beside those that were read.
 */
function mixersToTry(graph: SystemGraph, unexplained: readonly FieldReading[]): Component[] {
  const mixers = [...graph.components.values()].filter((one) => isOutlet(one) && isMixer(graph, one))
  const read = new Set(unexplained.map(({ component }) => component))
  const own = mixers.filter(({ id }) => read.has(id))
  const risers = new Set(own.map(({ riser }) => riser))
  const onEach = [...new Map(mixers.map((one) => [one.riser, one])).values()]
  return [...new Set([...own, ...onEach, ...mixers.filter(({ riser }) => risers.has(riser))])]
}

function endsOf(graph: SystemGraph, id: string): string[] {
  const pipe = graph.pipes.get(id)
  return pipe === undefined ? [id] : [pipe.from, pipe.to]
}

const none = [undefined]

function stopped(system: WaterSystem, { riser, from, pipes }: ReturnLeg): Reason[] {
  const described = new Map(system.pipes.map((pipe) => [pipe.id, pipe.recirculationLPerMin]))
  const closed = pipes.find((id) => (described.get(id) ?? 0) > 0) ?? pipes[0]
  if (closed === undefined) return []
  return [
    {
      id: `stopped:${closed}`,
      kind: 'stopped loop',
      words: `The return ${riser === undefined ? `from ${from}` : `of riser ${riser}`} stands still: a closed or blocked valve, air, a dead pump.`,
      parts: pipes,
      replaces: [`loopFlow:${closed}`],
      sizes: none,
      override: () => ({ closedPipes: [closed] }),
    },
  ]
}

/** The return runs, but with a fraction of its flow. */
function slow(system: WaterSystem, { riser, from, pipes }: ReturnLeg): Reason[] {
  const pipe = system.pipes.find(({ id, recirculationLPerMin = 0 }) => pipes.includes(id) && recirculationLPerMin > 0)
  const described = pipe?.recirculationLPerMin
  if (pipe === undefined || described === undefined) return []
  return [
    {
      id: `slow:${pipe.id}`,
      kind: 'slow loop',
      words: `The return ${riser === undefined ? `from ${from}` : `of riser ${riser}`} hardly flows, where ${described} L/min are described: a valve nearly closed, dirt, air, a weak pump, loops out of balance.`,
      parts: pipes,
      replaces: [`loopFlow:${pipe.id}`],
      sizes: FITTING.slowFlowShares.map((share) => share * described),
      size: sizeOf({ words: 'Flow of that return', unit: 'L/min' }),
      override: (flow = described) => ({ loopFlowLPerMin: { [pipe.id]: flow } }),
    },
  ]
}

function heaterLow(heater: Component, strained: readonly StrainedInput[]): Reason[] {
  const { id, setpointC } = heater
  if (setpointC === undefined) return []
  const fittedC = strained.find((one) => one.id === `setpointC:${id}`)?.value ?? setpointC
  const drops = [...(fittedC < setpointC ? [setpointC - fittedC] : []), ...FITTING.setpointDropsK].slice(0, 2)
  return [
    {
      id: `low:${id}`,
      kind: 'heater below its set point',
      words: `${componentName(heater)} does not reach its set point of ${setpointC} °C: turned down, scaled up, too small, out of service.`,
      parts: [id],
      replaces: [`setpointC:${id}`],
      sizes: drops,
      size: sizeOf({ words: 'Kelvin below the set point', unit: 'K' }),
      override: (dropK = 0) => ({ setpointC: { [id]: setpointC - dropK } }),
    },
  ]
}

function sizeOf({ words, unit }: { words: string; unit: string }): NonNullable<Reason['size']> {
  return { id: 'size', words, unit, scale: 'log', start: 1, prior: { centre: 1, sd: FITTING.sizeSd } }
}

function valveReasons(graph: SystemGraph, valve: Component): Reason[] {
  const { id } = valve
  if (!isMixer(graph, valve)) return []
  const closed: Reason = {
    id: `closed:${id}`,
    kind: 'closed mixing valve',
    words: `The hot side of ${componentName(valve)} is shut: it sends on cold water only.`,
    parts: [id],
    replaces: [],
    sizes: none,
    override: () => ({ setpointC: { [id]: SHUT_C } }),
  }
  return [closed, ...crossings(valve)]
}

/** A valve set colder than any water takes nothing from its hot side; were its hot pipe closed, its hot port would ask for water that nothing brings. */
const SHUT_C = 0

const isMixer = (graph: SystemGraph, { id }: Component): boolean =>
  hasCircuit(graph, { id, circuit: 'cold' }) &&
  (hasCircuit(graph, { id, circuit: 'hot' }) || hasCircuit(graph, { id, circuit: 'tempered' }))

function crossings(at: Component): Reason[] {
  const { id } = at
  const common = { parts: [id], replaces: [], sizes: FITTING.crossFlowsLPerMin, standsFor: at.riser }
  const size = sizeOf({ words: 'Flow that crosses', unit: 'L/min' })
  const name = at.riser === undefined ? componentName(at) : `${componentName(at)} or another mixer of riser ${at.riser}`
  const intoHotSide: Reason = {
    ...common,
    id: `crossed:${id}`,
    kind: 'crossed mixing valve',
    words: `Cold water crosses into the hot side at ${name}: hot and cold are open to each other there.`,
    size,
    override: (flow = 0) => ({ crossFlowLPerMin: { [id]: flow } }),
  }
  const intoColdSide: Reason = {
    ...common,
    id: `check:${id}`,
    kind: 'failed check valve',
    words: `Hot water pushes into the cold side at ${name}: a check valve there no longer closes.`,
    size,
    override: (flow = 0) => ({ crossFlowLPerMin: { [id]: -flow } }),
  }
  return [intoHotSide, intoColdSide]
}

/** The same reason at the other mixers of a riser, for one that stands for them. */
export function siblingsOf(system: WaterSystem, { id, kind, standsFor }: Reason): Reason[] {
  if (standsFor === undefined) return []
  const graph = buildGraph(system)
  return system.components
    .filter((one) => one.riser === standsFor && isOutlet(one) && isMixer(graph, one))
    .flatMap(crossings)
    .filter((one) => one.kind === kind && one.id !== id)
}

/** The last pipe to the outlet holds more water than is described: water comes later, and older. */
function deadLeg(
  graph: SystemGraph,
  { component: id, circuit }: Pick<FieldReading, 'component' | 'circuit'>,
): Reason[] {
  const component = graph.components.get(id)
  const branch = graph.pipesAt(id).find((pipe) => pipe.circuit === circuit)
  if (component === undefined || branch === undefined || !isOutlet(component)) return []
  const from = graph.components.get(otherEnd(branch, id))
  const where = from === undefined ? '' : ` from ${componentName(from)}`
  return [
    {
      id: `leg:${branch.id}`,
      kind: 'unknown dead leg',
      words: `There is more pipe than described on the ${circuit} way to ${componentName(component)}${where}: a longer branch, or a forgotten leg that stands.`,
      parts: [branch.id, id],
      replaces: [],
      sizes: FITTING.branchFactors,
      size: sizeOf({ words: 'Length of the branch, times what is described', unit: 'times' }),
      override: (times = 1) => ({ lengthFactor: { [branch.id]: times } }),
    },
  ]
}
