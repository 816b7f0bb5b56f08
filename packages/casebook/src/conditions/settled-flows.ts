import limits from '@rillmark/reference/building/limits.json' with { type: 'json' }
import { JoinedSets } from './joined-sets.ts'
import type { ReturnWays } from './return-ways.ts'

const AGREEMENT = limits.flowAgreementFraction.value
const OUTSIDE = ''

export interface StatedFlow {
  pipe: string
  /** In the way the water runs. */
  from: string
  to: string
  flowLPerMin: number
  /** Let go first where it says no more than the others: a pump's flow before a measured return. */
  spare: boolean
}

export interface SettledFlows {
  /** Flows that stand; the rest of the stated ones follows from them. */
  stand: ReadonlyMap<string, StatedFlow>
  /** Flows that follow, with what they come to. */
  follow: readonly { stated: StatedFlow; impliedLPerMin: number; agrees: boolean }[]
}

/**
 * Which stated flows stand. Where returns meet, what goes on is the sum of what comes: a flow stated there as well says the same
 * again, and never quite the same. It is let go, and compared with the sum. What stands nearest the outlets is kept.
 */
export function settleFlows(ways: ReturnWays, stated: readonly StatedFlow[]): SettledFlows {
  const inside = (id: string): string => (ways.isOutside(id) ? OUTSIDE : `in ${id}`)
  const known = new Set(stated.map((flow) => flow.pipe))
  const joined = new JoinedSets()
  for (const pipe of ways.pipes) if (!known.has(pipe.id)) joined.join(inside(pipe.from), inside(pipe.to))
  const pieces = new JoinedSets()
  for (const pipe of ways.pipes) if (!known.has(pipe.id)) pieces.join(inside(pipe.from), inside(pipe.to))
  const order = stated.toSorted(
    (a, b) => Number(b.spare) - Number(a.spare) || ways.leftM(a.to) - ways.leftM(b.to) || (a.pipe < b.pipe ? -1 : 1),
  )
  const follow = order.filter((flow) => joined.join(inside(flow.from), inside(flow.to)))
  const following = new Set(follow)
  const stand = new Map(stated.filter((flow) => !following.has(flow)).map((flow) => [flow.pipe, flow]))
  const pieceOf = (id: string): string => pieces.leaderOf(inside(id))
  return { stand, follow: compare({ follow, stand: [...stand.values()], pieceOf, outside: pieces.leaderOf(OUTSIDE) }) }
}

interface Comparison {
  follow: readonly StatedFlow[]
  stand: readonly StatedFlow[]
  pieceOf: (id: string) => string
  outside: string
}

/** What each flow comes to: the pieces they join are a tree, worked off from its leaves. */
function compare({ follow, stand, pieceOf, outside }: Comparison): SettledFlows['follow'] {
  const surplus = new Map<string, number>()
  const add = (piece: string, lPerMin: number): void => void surplus.set(piece, (surplus.get(piece) ?? 0) + lPerMin)
  const pass = ({ from, to }: StatedFlow, lPerMin: number): void => {
    add(pieceOf(from), -lPerMin)
    add(pieceOf(to), lPerMin)
  }
  for (const flow of stand) pass(flow, flow.flowLPerMin)
  const at = new Map<string, Set<StatedFlow>>()
  const hang = (piece: string, flow: StatedFlow): void => void at.set(piece, (at.get(piece) ?? new Set()).add(flow))
  for (const flow of follow) for (const id of [flow.from, flow.to]) hang(pieceOf(id), flow)
  const results: { stated: StatedFlow; impliedLPerMin: number; agrees: boolean }[] = []
  const leaves = [...at.keys()].filter((piece) => piece !== outside && at.get(piece)?.size === 1)
  for (let piece = leaves.pop(); piece !== undefined; piece = leaves.pop()) {
    const [flow] = at.get(piece) ?? []
    if (flow === undefined) continue
    const outwards = pieceOf(flow.from) === piece
    const impliedLPerMin = (surplus.get(piece) ?? 0) * (outwards ? 1 : -1)
    pass(flow, impliedLPerMin)
    results.push({ stated: flow, impliedLPerMin, agrees: agree(impliedLPerMin, flow.flowLPerMin) })
    const next = pieceOf(outwards ? flow.to : flow.from)
    for (const end of [piece, next]) at.get(end)?.delete(flow)
    if (next !== outside && at.get(next)?.size === 1) leaves.push(next)
  }
  return results
}

const agree = (one: number, other: number): boolean =>
  Math.abs(one - other) <= AGREEMENT * Math.max(Math.abs(one), Math.abs(other))
