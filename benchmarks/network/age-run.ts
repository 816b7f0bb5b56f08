// The EPANET engine's water age of a building over one day.
import type { Draw, Network, NetworkNode, NetworkOutlet, NetworkPipe } from '@rillmark/science/network/network.ts'
import { Project, QualityType, Workspace } from 'epanet-js'
import { demandsOf, engineText } from '../../checks/network/engine-text.ts'

const workspace = new Workspace()
await workspace.loadModule()

/** The engine's own choice where none is given: a tenth of the step of the hydraulics. */
const USUAL_QUALITY_SHARE = 0.1

/** Steps of the hydraulics, and of the quality: as long, or the engine's own choice. */
export interface EngineSteps {
  stepMinutes: number
  quality: 'as long' | 'usual'
}

/** Hydraulics and quality over a day; opening the file is not part of it. */
export function ageRun(
  network: Network,
  { stepMinutes, quality }: EngineSteps,
): { run: () => void; close: () => void } {
  const stepS = stepMinutes * 60
  const qualityStepS = quality === 'usual' ? stepS * USUAL_QUALITY_SHARE : stepS
  const times = { spans: 1, spanMinutes: 1440, stepMinutes, qualityStepS }
  const { text } = engineText(withoutVessels(network), times)
  workspace.writeFile('building.inp', text)
  const project = new Project(workspace)
  project.open('building.inp', 'building.rpt', 'building.out')
  project.setQualityType(QualityType.Age, 'age', 'h', '')
  const run = () => {
    project.solveH()
    project.solveQ()
  }
  return { run, close: () => project.close() }
}

/**
 * The same flows without tanks: the store is a reservoir to what lies beyond it, what it takes in is drawn from the feed, and a return
 * of known flow is a pipe with that draw at its end. Less work for the engine than a tank with its valves.
 */
export function withoutVessels(network: Network): Network {
  const nodes: NetworkNode[] = network.nodes.map((node) =>
    node.kind === 'vessel' ? { id: node.id, kind: 'source', temperatureC: 60, residualMgPerL: 0 } : node,
  )
  const outlets: NetworkOutlet[] = [...network.outlets]
  const drawnAt = (draws: readonly Draw[]) => {
    const coldNode = nodes.push({ id: `drawn ${nodes.length}`, kind: 'junction' }) - 1
    outlets.push({ id: `drawn ${coldNode}`, coldNode, draws })
    return coldNode
  }
  const pipes: NetworkPipe[] = network.pipes.map((pipe) => {
    const { fixedFlowLPerMin, ...rest } = pipe
    if (fixedFlowLPerMin !== undefined)
      return { ...rest, to: drawnAt([{ startMinute: 0, minutes: 1440, flowLPerMin: fixedFlowLPerMin }]) }
    const feeds = network.nodes[pipe.to]?.kind === 'vessel' && !pipe.returning
    return feeds ? { ...rest, to: drawnAt(hotDraws(network)) } : rest
  })
  return { ...network, nodes, pipes, outlets }
}

/** All that is drawn beyond the store, minute by minute. */
function hotDraws(network: Network): Draw[] {
  const hot = network.outlets.filter(({ id }) => id.endsWith('hot'))
  const minutes = new Float64Array(1440)
  for (const row of demandsOf({ ...network, outlets: hot }, 1))
    for (const [minute, flow] of row.entries()) minutes[minute] = (minutes[minute] ?? 0) + flow
  return [...minutes].map((flowLPerMin, startMinute) => ({ startMinute, minutes: 1, flowLPerMin }))
}
