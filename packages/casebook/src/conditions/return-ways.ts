import { otherEnd, reachOf, type SystemGraph } from '../building/graph.ts'
import { type Component, isHeater, isOutlet, type Pipe } from '../building/water-system.ts'

/** What is known of the way round: where returns begin and end, which way their water goes, and which pipe a pump pushes into. */
export interface ReturnWays {
  pipes: readonly Pipe[]
  /** Heaters and mixing valves that returns come back to. */
  isEnd: (id: string) => boolean
  /** Anything else than a joint of returns alone: there water comes and goes by other pipes too. */
  isOutside: (id: string) => boolean
  /** True where the water of a return runs from `to` to `from` of the description. */
  runsBackwards: (pipe: Pipe) => boolean
  /** Metres of return left to the end; infinite where no return leads to one. */
  leftM: (id: string) => number
}

const RETURN = 'hot-return'
const JOINTS: ReadonlySet<Component['kind']> = new Set(['junction', 'pump', 'drain-valve', 'treatment'])

export function returnWays(graph: SystemGraph): ReturnWays {
  const pipes = [...graph.pipes.values()].filter((pipe) => pipe.circuit === RETURN)
  const touched = new Set(pipes.flatMap((pipe) => [pipe.from, pipe.to]))
  const component = (id: string): Component | undefined => graph.components.get(id)
  const ends = new Set([...touched].filter((id) => isReturnEnd(component(id))))
  const left = reachOf(graph, { circuit: RETURN, sources: new Map([...ends].map((id) => [id, 0])) })
  const leftM = (id: string): number => left.get(id)?.lengthM ?? Number.POSITIVE_INFINITY
  const outside = new Set([...touched].filter((id) => !isJoint(graph, id)))
  return {
    pipes,
    isEnd: (id) => ends.has(id),
    isOutside: (id) => outside.has(id),
    runsBackwards: (pipe) => leftM(pipe.from) < leftM(pipe.to),
    leftM,
  }
}

const isReturnEnd = (component: Component | undefined): boolean =>
  component !== undefined && (isHeater(component) || component.kind === 'mixing-valve')

function isJoint(graph: SystemGraph, id: string): boolean {
  const component = graph.components.get(id)
  if (component === undefined || isOutlet(component) || !JOINTS.has(component.kind)) return false
  return graph.pipesAt(id).every((pipe) => pipe.circuit === RETURN)
}

/** The pipe a pump drives, and whether it pushes into it or draws from it. */
export interface Driven {
  pump: Component
  pipe: Pipe
  /** True where the water has to run from `to` to `from` of the description. */
  backwards: boolean
  /** On the return side the pump moves the circulation alone; on the hot side draws pass it as well. */
  onReturn: boolean
}

/** The pumps of the hot side with the pipe each drives; undefined where that can't be told. Pumps in cold water move nothing here: draws do. */
export function drivenPipes(graph: SystemGraph, ways: ReturnWays): { pump: Component; driven: Driven | undefined }[] {
  const away = new Map((['hot', 'tempered'] as const).map((circuit) => [circuit, reachOf(graph, { circuit })]))
  const found: { pump: Component; driven: Driven | undefined }[] = []
  for (const pump of graph.components.values()) {
    if (pump.kind !== 'pump') continue
    const at = graph.pipesAt(pump.id)
    const returns = at.filter((pipe) => pipe.circuit === RETURN)
    const warm = at.filter((pipe) => pipe.circuit === 'hot' || pipe.circuit === 'tempered')
    if (returns.length + warm.length === 0) continue
    /** How far along its way round the water is, rising with the flow. */
    const along = (pipe: Pipe, id: string): number =>
      pipe.circuit === 'hot' || pipe.circuit === 'tempered'
        ? (away.get(pipe.circuit)?.get(id)?.lengthM ?? 0)
        : -ways.leftM(id)
    const onReturn = returns.length > 0
    const pipe = driveOf({ pump, pipes: onReturn ? returns : warm, along })
    if (pipe === undefined) found.push({ pump, driven: undefined })
    else
      found.push({
        pump,
        driven: { pump, pipe, onReturn, backwards: along(pipe, pipe.from) > along(pipe, pipe.to) },
      })
  }
  return found
}

interface Drive {
  pump: Component
  pipes: readonly Pipe[]
  along: (pipe: Pipe, id: string) => number
}

/** The one pipe that leaves the pump, else the one that comes to it. */
function driveOf({ pump, pipes, along }: Drive): Pipe | undefined {
  const leaves = (pipe: Pipe): boolean => along(pipe, otherEnd(pipe, pump.id)) > along(pipe, pump.id)
  const leaving = pipes.filter(leaves)
  const entering = pipes.filter((pipe) => !leaves(pipe))
  if (leaving.length === 1) return leaving[0]
  return entering.length === 1 ? entering[0] : undefined
}
