import { checkFeeds } from './check-feeds.ts'
import { checkFigures } from './check-figures.ts'
import { checkLoops } from './check-loops.ts'
import type { SystemProblem } from './check-parts.ts'
import { problemCollector } from './check-parts.ts'
import { checkLinks, readShape } from './check-shape.ts'
import { buildGraph } from './graph.ts'

/**
 * Every problem of a water-system file at once: what cannot be read, what is joined to nothing, where no water comes,
 * loops that do not close, and figures that cannot be or contradict each other.
 *
 * Never throws on any value, and stays quick on a hundred thousand components. An empty list means the system can be
 * drawn, planned on and simulated. Problems come in the order of the file's own lists within each rule.
 *
 * @param file anything, usually parsed JSON
 */
export function checkSystem(file: unknown): SystemProblem[] {
  const problems: SystemProblem[] = []
  const read = readShape(file, problems)
  if (read === undefined) return problems
  const graph = buildGraph(read)
  const report = problemCollector(problems)
  checkLinks({ ...read, report, pipeCount: (id) => graph.pipesAt(id).length })
  const input = { ...read, graph, report }
  checkFeeds(input)
  checkLoops(input)
  checkFigures(input)
  return problems
}

/** True where nothing stops simulation and planning. */
export const isUsable = (problems: readonly SystemProblem[]): boolean =>
  !problems.some((problem) => problem.severity === 'error')
