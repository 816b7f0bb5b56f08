import { type Circuit, type Component, isOutlet } from '../building/water-system.ts'
import type { Conditions, ConditionsSeries } from './conditions.ts'
import { CARRIED, type ShownQuantity, type Side } from './shown-quantity.ts'
import { arriving } from './side-of.ts'

/** Where a curve is looked up (in a part, or at the end of a pipe), and of what. */
export type CurveAsked = ({ readonly component: string } | { readonly pipe: string }) & {
  readonly quantity: ShownQuantity
}

/** One value a span of the day, from midnight; undefined where the simulation kept none. */
export function dayCurve(series: ConditionsSeries, asked: CurveAsked): Float32Array | undefined {
  const rows = rowsOf(series)
  const carried = CARRIED[asked.quantity]
  return 'pipe' in asked
    ? rowAt(series.pipes[carried], { row: rows.pipes.get(asked.pipe), slots: series.slots })
    : rowAt(series.components[carried], { row: rows.components.get(asked.component), slots: series.slots })
}

/** One quantity of a part on one side, with what tells where its curve is kept. */
export interface SideAsked {
  readonly quantity: ShownQuantity
  readonly component: Component
  readonly side: Side
  readonly arrivals: ReadonlyMap<string, Partial<Record<Circuit, string>>>
  readonly conditions: Conditions
}

/** The curve of one side of a part: of an outlet that of the pipe it arrives through, of plant its own. */
export function curveAt(
  series: ConditionsSeries,
  { component, side, arrivals, conditions, quantity }: SideAsked,
): Float32Array | undefined {
  if (!isOutlet(component)) return dayCurve(series, { component: component.id, quantity })
  const as = arriving(conditions.components[component.id] ?? {}, side)?.as
  const pipe = as === undefined ? undefined : arrivals.get(component.id)?.[as]
  return pipe === undefined ? undefined : dayCurve(series, { pipe, quantity })
}

/** Flow in a pipe over the day, L/min. */
export function flowCurve(series: ConditionsSeries, pipe: string): Float32Array | undefined {
  return rowAt(series.pipes.flowLPerMin, { row: rowsOf(series).pipes.get(pipe), slots: series.slots })
}

function rowAt(
  values: Float32Array,
  { row, slots }: { row: number | undefined; slots: number },
): Float32Array | undefined {
  return row === undefined ? undefined : values.subarray(row * slots, (row + 1) * slots)
}

interface Rows {
  readonly pipes: ReadonlyMap<string, number>
  readonly components: ReadonlyMap<string, number>
}

/** A day holds ten thousand rows and is asked for each of them: where they lie is found once. */
const known = new WeakMap<ConditionsSeries, Rows>()

function rowsOf(series: ConditionsSeries): Rows {
  const found = known.get(series)
  if (found !== undefined) return found
  const rows = { pipes: positions(series.pipeIds), components: positions(series.componentIds) }
  known.set(series, rows)
  return rows
}

const positions = (ids: readonly string[]): Map<string, number> => new Map(ids.map((id, at) => [id, at]))
