import type { DaySeries } from '@rillmark/science/network/day-result.ts'
import { QUANTITIES, type Quantity } from '@rillmark/science/network/network.ts'
import type { SystemMap } from './compiled.ts'
import type { ConditionsSeries } from './conditions.ts'

/** The curves of the day by the parts of the description. */
export function seriesOf({ components, pipes }: SystemMap, day: DaySeries): ConditionsSeries {
  const rows = [...components].flatMap(([id, { node, circuits }]) => {
    const own = node ?? circuits.hot ?? circuits.tempered ?? circuits.cold
    return own === undefined ? [] : [{ id, node: own }]
  })
  const places = [...pipes.values()]
  const { slots } = day
  const pipeRows = places.map(({ pipe }) => pipe)
  const nodeRows = rows.map(({ node }) => node)
  const flow = pick(day.pipes.flowLPerMin, { rows: pipeRows, slots })
  for (const [row, { turned }] of places.entries())
    if (turned) for (let slot = 0; slot < slots; slot++) flow[row * slots + slot] = 0 - (flow[row * slots + slot] ?? 0)
  return {
    slots,
    pipeIds: [...pipes.keys()],
    componentIds: rows.map(({ id }) => id),
    pipes: { ...picked(day.pipes, { rows: pipeRows, slots }), flowLPerMin: flow },
    components: picked(day.nodes, { rows: nodeRows, slots }),
  }
}

interface Chosen {
  rows: readonly number[]
  slots: number
}

const picked = (curves: Record<Quantity, Float32Array>, chosen: Chosen): Record<Quantity, Float32Array> => {
  const all = QUANTITIES.map((quantity) => [quantity, pick(curves[quantity], chosen)] as const)
  return Object.fromEntries(all) as Record<Quantity, Float32Array>
}

function pick(curves: Float32Array, { rows, slots }: Chosen): Float32Array {
  const found = new Float32Array(rows.length * slots)
  for (const [at, row] of rows.entries()) found.set(curves.subarray(row * slots, (row + 1) * slots), at * slots)
  return found
}
