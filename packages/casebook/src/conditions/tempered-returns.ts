import type { NetworkPipe } from '@rillmark/science/network/network.ts'
import { otherEnd } from '../building/graph.ts'
import { type Circuit, isHeater, type Pipe } from '../building/water-system.ts'
import { JoinedSets } from './joined-sets.ts'
import type { NetworkDraft } from './network-draft.ts'
import { type ReturnWays, returnWays } from './return-ways.ts'

/** As long as a tee: short enough to change nothing. */
const TEE_M = 0.1
/** The tee as a vessel that holds a litre and loses nothing: water going round passes no other, and the simulation opens rounds at vessels. */
const HEADER = { volumeL: 1, layers: 1, heatedFromLayer: 0, returnLayer: 0, lossWPerK: 0, ambientC: 20 }

/**
 * Joins the returns of tempered water with the cold pipes of their mixing valve and of its heaters in one tee, from which valve and heaters
 * take what they need. While nobody draws, what comes back is what the valve takes on its cold side and the heaters on theirs;
 * described to end at one of them alone, it would have to run backwards out of that one's cold inlet.
 */
export function joinTemperedReturns(draft: NetworkDraft): void {
  if (draft.valves.length === 0) return
  const ways = returnWays(draft.graph)
  if (ways.pipes.length === 0) return
  for (const { returns, valves, heaters } of temperedLoops(draft, ways)) {
    for (const valve of valves) draft.choose('temperedReturn', valve)
    joinInTee(draft, { returns, ends: [...valves, ...heaters] })
  }
}

interface TemperedLoop {
  /** The pipes by which the water comes back to a heater or valve. */
  returns: Pipe[]
  valves: Set<string>
  heaters: Set<string>
}

/** Valves, heaters and returns that share water, loop by loop. */
function temperedLoops(draft: NetworkDraft, ways: ReturnWays): TemperedLoop[] {
  const joined = new JoinedSets()
  for (const pipe of ways.pipes)
    for (const end of [pipe.from, pipe.to]) if (!ways.isOutside(end)) joined.join(`pipe ${pipe.id}`, `at ${end}`)
  const valves = draft.valves.map(({ id }) => ({ id, pipes: returnsOf(draft, { valve: id, ways }) }))
  const looping = valves.filter(({ pipes }) => pipes.length > 0)
  for (const { id, pipes } of looping) for (const pipe of pipes) joined.join(`pipe ${pipe.id}`, `valve ${id}`)
  const loops = new Map<string, TemperedLoop>()
  for (const { id } of looping) {
    const leader = joined.leaderOf(`valve ${id}`)
    const loop = loops.get(leader) ?? { returns: [], valves: new Set<string>(), heaters: new Set<string>() }
    loops.set(leader, loop)
    loop.valves.add(id)
  }
  for (const pipe of ways.pipes) {
    const loop = loops.get(joined.leaderOf(`pipe ${pipe.id}`))
    const end = [pipe.from, pipe.to].find(ways.isEnd)
    if (loop === undefined || end === undefined) continue
    loop.returns.push(pipe)
    if (isHeaterId(draft, end)) loop.heaters.add(end)
  }
  for (const loop of loops.values())
    if (loop.heaters.size === 0) loop.heaters = new Set([...loop.valves].flatMap((valve) => heatersOf(draft, valve)))
  return [...loops.values()]
}

/** The returns that leave the tempered water of a valve. */
function returnsOf(draft: NetworkDraft, { valve, ways }: { valve: string; ways: ReturnWays }): Pipe[] {
  const places = [...reached(draft, { from: valve, circuit: 'tempered' })].filter((id) => !ways.isEnd(id))
  return places.flatMap((id) => draft.graph.pipesAt(id).filter((pipe) => pipe.circuit === 'hot-return'))
}

const heatersOf = (draft: NetworkDraft, valve: string): string[] =>
  [...reached(draft, { from: valve, circuit: 'hot' })].filter((id) => isHeaterId(draft, id))

const isHeaterId = ({ graph }: NetworkDraft, id: string): boolean => {
  const component = graph.components.get(id)
  return component !== undefined && isHeater(component)
}

function reached({ graph }: NetworkDraft, { from, circuit }: { from: string; circuit: Circuit }): Set<string> {
  const found = new Set([from])
  const open = [from]
  for (let id = open.pop(); id !== undefined; id = open.pop())
    for (const pipe of graph.pipesAt(id)) {
      const next = otherEnd(pipe, id)
      if (pipe.circuit !== circuit || found.has(next)) continue
      found.add(next)
      open.push(next)
    }
  return found
}

function joinInTee(
  draft: NetworkDraft,
  { returns, ends }: { returns: readonly Pipe[]; ends: readonly string[] },
): void {
  const tee = draft.addNode({ id: `tee of ${ends.join(', ')}`, kind: 'vessel', ...HEADER })
  const inlets = new Map(ends.map((id) => [inletOf(draft, id), id]))
  const cold = ends.flatMap((id) => draft.graph.pipesAt(id).filter((pipe) => pipe.circuit === 'cold'))
  let like: NetworkPipe | undefined
  for (const { id } of [...cold, ...returns]) {
    const pipe = draft.pipes[draft.placedPipes.get(id)?.pipe ?? -1]
    if (pipe === undefined || (inlets.has(pipe.from) && inlets.has(pipe.to))) continue
    like ??= pipe
    if (inlets.has(pipe.to)) Object.assign(pipe, { to: tee, returning: false })
    if (inlets.has(pipe.from)) pipe.from = tee
  }
  if (like === undefined) return
  const { fixedFlowLPerMin: _flow, pump: _pump, oneWay: _oneWay, ...build } = like
  for (const [to, id] of inlets)
    draft.pipes.push({ ...build, id: `tee to ${id}`, from: tee, to, lengthM: TEE_M, fittingLoss: 0 })
}

function inletOf(draft: NetworkDraft, id: string): number {
  const { node, circuits } = draft.placed.get(id) ?? { circuits: {} }
  const inlet = circuits.cold ?? node
  if (inlet === undefined) throw new RangeError(`Cannot join a return because ${id} has no inlet`)
  return inlet
}
