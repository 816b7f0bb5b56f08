import table from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import type { NetworkPipe } from '@rillmark/science/network/network.ts'
import type { Component, Pipe } from '../building/water-system.ts'
import { freeWays } from './free-ways.ts'
import type { NetworkDraft } from './network-draft.ts'
import { type Driven, drivenPipes, type ReturnWays, returnWays } from './return-ways.ts'
import { type SettledFlows, settleFlows, type StatedFlow } from './settled-flows.ts'

export interface Circulation {
  /** True where the network has a pipe the other way round than the description. */
  isTurned: (pipe: Pipe) => boolean
  movedBy: (pipe: Pipe) => Pick<NetworkPipe, 'fixedFlowLPerMin' | 'pump' | 'oneWay'>
}

/** Which way the water of the returns runs and what moves it: flows that are described, else pumps. */
export function circulationOf(draft: NetworkDraft): Circulation {
  const ways = returnWays(draft.graph)
  const described = ways.pipes.flatMap((pipe) => statedFlow(draft, { ways, pipe }))
  const pumps = neededPumps(draft, { ways, described })
  const stated = [...described, ...pumps.flatMap((driven) => pumpFlow(draft, driven))]
  const settled = settleFlows(ways, stated)
  reportDisagreement(draft, settled)
  reportUnmoved(draft, { ways, stated, pumps })
  const cut = cutOff(draft, ways)
  const drives = new Map(pumps.map((driven) => [driven.pipe.id, driven]))
  return {
    isTurned: (pipe) => drives.get(pipe.id)?.backwards ?? (pipe.circuit === 'hot-return' && ways.runsBackwards(pipe)),
    movedBy: (pipe) => {
      if (draft.overrides.closedPipes?.includes(pipe.id) === true) return { fixedFlowLPerMin: 0 }
      const flow = settled.stand.get(pipe.id)
      if (flow !== undefined) return { fixedFlowLPerMin: cut(pipe) ? 0 : triedFlow(draft, flow) }
      const driven = drives.get(pipe.id)
      return driven === undefined || stated.some((one) => one.pipe === pipe.id) ? {} : pumpCurve(draft, driven.pump)
    },
  }
}

function statedFlow(draft: NetworkDraft, { ways, pipe }: { ways: ReturnWays; pipe: Pipe }): StatedFlow[] {
  const { recirculationLPerMin: value } = pipe
  if (value === undefined) return []
  const flowLPerMin = draft.described(pipe, { fact: 'recirculationLPerMin', value })
  const [from, to] = ways.runsBackwards(pipe) ? [pipe.to, pipe.from] : [pipe.from, pipe.to]
  return [{ pipe: pipe.id, from, to, flowLPerMin, spare: false }]
}

/** The pumps that decide a flow; where all returns are described they say nothing more. */
function neededPumps(
  draft: NetworkDraft,
  { ways, described }: { ways: ReturnWays; described: readonly StatedFlow[] },
): Driven[] {
  const open = freeWays(ways, new Set(described.map((flow) => flow.pipe)))
  if (open.length === 0) return []
  const needed: Driven[] = []
  for (const { pump, driven } of drivenPipes(draft.graph, ways)) {
    const within = open.some((way) => way.touched.has(pump.id))
    if (driven === undefined && within) reportUndriven(draft, pump)
    if (driven !== undefined && (within || !driven.onReturn)) needed.push(driven)
  }
  return needed
}

/** On the return side a pump's described flow is what goes round. */
function pumpFlow(draft: NetworkDraft, { pump, pipe, backwards, onReturn }: Driven): StatedFlow[] {
  const { flowLPerMin: value } = pump
  if (!onReturn || value === undefined) return []
  const flowLPerMin = draft.described(pump, { fact: 'flowLPerMin', value })
  const [from, to] = backwards ? [pipe.to, pipe.from] : [pipe.from, pipe.to]
  return [{ pipe: pipe.id, from, to, flowLPerMin, spare: true }]
}

function triedFlow({ overrides }: NetworkDraft, { pipe, flowLPerMin }: StatedFlow): number {
  return (overrides.loopFlowLPerMin?.[pipe] ?? flowLPerMin) * (overrides.loopFlowFactor ?? 1)
}

/** The curve through one usual point: at rest a third more head, at twice the flow none. */
function pumpCurve(draft: NetworkDraft, pump: Component): Pick<NetworkPipe, 'pump' | 'oneWay'> {
  const headM = draft.fillIn('pumpDesignHeadM', pump.id)
  const factor = draft.overrides.loopFlowFactor ?? 1
  const flow =
    pump.flowLPerMin === undefined
      ? draft.fillIn('pumpDesignFlowLPerMin', pump.id)
      : draft.described(pump, { fact: 'flowLPerMin', value: pump.flowLPerMin })
  draft.choose('checkValve', pump.id)
  const shutOffHeadM = headM * table.curve.shutOffPerDesignHead.value
  const atFlow = flow * factor
  if (atFlow <= 0) return {}
  return { pump: { shutOffHeadM, headDropMPerLPerMin2: (shutOffHeadM - headM) / atFlow ** 2 }, oneWay: true }
}

/** Returns whose water can no longer come back because of a pipe that is tried closed. */
function cutOff({ graph, overrides }: NetworkDraft, ways: ReturnWays): (pipe: Pipe) => boolean {
  const closed = new Set(overrides.closedPipes ?? [])
  if (closed.size === 0) return () => false
  const open = [...new Set(ways.pipes.flatMap((pipe) => [pipe.from, pipe.to]))].filter(ways.isEnd)
  const reached = new Set(open)
  for (let id = open.pop(); id !== undefined; id = open.pop())
    for (const pipe of graph.pipesAt(id)) {
      if (pipe.circuit !== 'hot-return' || closed.has(pipe.id)) continue
      const next = pipe.from === id ? pipe.to : pipe.from
      if (reached.has(next)) continue
      reached.add(next)
      if (!ways.isOutside(next)) open.push(next)
    }
  return (pipe) => !reached.has(ways.runsBackwards(pipe) ? pipe.from : pipe.to)
}

function reportDisagreement(draft: NetworkDraft, { follow }: SettledFlows): void {
  for (const { stated, impliedLPerMin, agrees } of follow) {
    const sum = `${Number(impliedLPerMin.toFixed(3))} L/min`
    if (!agrees)
      draft.reasons.push({
        at: stated.pipe,
        why: `its flow of ${stated.flowLPerMin} L/min contradicts the other returns, which make it ${sum}`,
        needs: 'flows that add up where returns meet',
      })
    else if (impliedLPerMin !== stated.flowLPerMin)
      draft.cautions.add(
        `Flow of ${stated.pipe}: ${sum}, what the other returns bring, in place of the ${stated.flowLPerMin} described.`,
      )
  }
}

/** A way round that nothing moves: neither a described flow nor a pump. */
function reportUnmoved(
  draft: NetworkDraft,
  { ways, stated, pumps }: { ways: ReturnWays; stated: readonly StatedFlow[]; pumps: readonly Driven[] },
): void {
  const driven = new Set(pumps.map(({ pump }) => pump.id))
  if (pumps.some((one) => !one.onReturn)) return
  for (const way of freeWays(ways, new Set(stated.map((flow) => flow.pipe)))) {
    if ([...way.touched].some((id) => driven.has(id))) continue
    draft.reasons.push({
      at: way.starts[0] ?? way.pipes[0] ?? 'pipes',
      why: 'nothing says how much water goes round by this return',
      needs: 'its flow in L/min, or a pump',
    })
  }
}

function reportUndriven(draft: NetworkDraft, pump: Component): void {
  draft.reasons.push({
    at: pump.id,
    why: 'several pipes come to this pump and several leave it, so which it drives can’t be told',
    needs: 'one pipe that leaves it, or one that comes to it',
  })
}
