import type { Circuit } from '../building/water-system.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { otherEnd } from '../building/graph.ts'
import { type ExplainedSide, explainedSide } from './explained-side.ts'
import { circuitsAt, type ExplainedFrom, type ExplainedSystem, explainedSystem, waterAt } from './explained-system.ts'
import type { Explanation, SideExplanation } from './explanation.ts'
import { findCauses } from './find-causes.ts'
import { pipeWords, placeWords } from './part-words.ts'
import { sayGrowth, sayResidual, sayTemperature } from './say-water.ts'
import { sayAge, sayFlow, sayWay } from './say-way.ts'
import { spokenFigures } from './spoken-figures.ts'
import { waterWay } from './water-way.ts'

export interface PlaceAsked extends ExplainedFrom {
  /** a component or a pipe */
  readonly id: string
  readonly units?: DisplayUnits
}

/**
 * Why the water of a component or pipe is as the simulation says: what flows there, from where, how long it took, what it lost on the
 * way, how favourable to growth that makes it, and the causes that can be shown. In plain words and the reader's units. Parts of
 * which nothing can be said have no sides.
 * @throws RangeError when the system can't be simulated
 */
export function explainPlace({ id, units = METRIC_UNITS, ...from }: PlaceAsked): Explanation {
  const explained = explainedSystem(from)
  const pipe = explained.graph.pipes.get(id)
  const sides = pipe === undefined ? sidesOfComponent(explained, id) : sidesOfPipe(explained, id)
  const name = pipe === undefined ? placeWords(explained, id) : pipeWords(explained, pipe)
  return { id, name, sides: sides.map((side) => told(side, units)) }
}

function told(side: ExplainedSide, units: DisplayUnits): SideExplanation {
  const say = spokenFigures(units)
  return {
    water: side.pieces.length === 0 ? 'stored' : side.circuit,
    sentences: [sayFlow, sayWay, sayAge, sayTemperature, sayResidual, sayGrowth].flatMap((sayIt) =>
      sayIt({ side, say }),
    ),
    causes: findCauses({ side, say }),
    way: side.pieces.map(({ pipe }) => pipe.id),
  }
}

/** Outlets and valves have a side for each circuit, heaters and tanks one of what they hold, joints one of what passes. */
function sidesOfComponent(explained: ExplainedSystem, id: string): ExplainedSide[] {
  const component = explained.graph.components.get(id)
  if (component === undefined) return []
  const arriving = explained.conditions.components[id]?.circuits
  const circuits = circuitsAt(explained.graph, id)
  if (arriving !== undefined)
    return circuits.flatMap((circuit) => {
      const place = circuit === 'hot-return' ? undefined : arriving[circuit]
      return place === undefined ? [] : [explainedSide({ explained, id, circuit, place })]
    })
  const [circuit] = circuits
  const place = circuit === undefined ? undefined : waterAt(explained, { id, circuit })
  if (circuit === undefined || place === undefined) return []
  const way = SOURCES.has(component.kind) ? { way: { source: id, pieces: [] } } : {}
  return [explainedSide({ explained, id, circuit, place, ...way })]
}

const SOURCES: ReadonlySet<string> = new Set(['supply-entry', 'storage-heater', 'instant-heater', 'cold-tank'])

/** A pipe is told by the water at the end to which it flows, or the far end where nothing flows. */
function sidesOfPipe(explained: ExplainedSystem, id: string): ExplainedSide[] {
  const { graph, conditions } = explained
  const pipe = graph.pipes.get(id)
  const day = conditions.pipes[id]
  if (pipe === undefined || day === undefined) return []
  const circuit: Circuit = pipe.circuit
  const end = day.flowLPerMin.mean < 0 ? pipe.from : pipe.to
  const start = otherEnd(pipe, end)
  const upTo = waterWay({ graph, conditions, id: start, circuit })
  const back = upTo.pieces.some((piece) => piece.pipe.id === id)
  const before = back || ENDS.has(graph.components.get(start)?.kind ?? '') ? { source: start, pieces: [] } : upTo
  const way = { source: before.source, pieces: [...before.pieces, { pipe, from: start, to: end }] }
  return [explainedSide({ explained, id: end, circuit, place: day.end, way })]
}

const ENDS: ReadonlySet<string> = new Set([...SOURCES, 'mixing-valve'])
