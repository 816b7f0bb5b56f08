import { JoinedSets } from './joined-sets.ts'
import type { ReturnWays } from './return-ways.ts'

/** Returns joined to each other by which water can go round with no described flow in its way. */
export interface FreeWay {
  pipes: readonly string[]
  /** The pipes by which it leaves the flow. */
  starts: readonly string[]
  /** Every component on it. */
  touched: ReadonlySet<string>
}

/** The ways round that no described flow decides: from the hot flow to a heater or mixing valve. */
export function freeWays(ways: ReturnWays, decided: ReadonlySet<string>): FreeWay[] {
  const joined = new JoinedSets()
  const free = ways.pipes.filter((pipe) => !decided.has(pipe.id))
  for (const pipe of free)
    for (const end of [pipe.from, pipe.to]) if (!ways.isOutside(end)) joined.join(`pipe ${pipe.id}`, `at ${end}`)
  const found = new Map<string, { pipes: string[]; starts: string[]; touched: Set<string>; ends: boolean }>()
  for (const { id, from, to } of free) {
    const leader = joined.leaderOf(`pipe ${id}`)
    const way = found.get(leader) ?? { pipes: [], starts: [], touched: new Set(), ends: false }
    found.set(leader, way)
    way.pipes.push(id)
    for (const end of [from, to]) {
      way.touched.add(end)
      if (ways.isEnd(end)) way.ends = true
      else if (ways.isOutside(end)) way.starts.push(id)
    }
  }
  return [...found.values()].filter((way) => way.ends && way.starts.length > 0)
}
