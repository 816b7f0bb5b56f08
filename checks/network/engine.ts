// The EPANET engine (open source, through epanet-js) on our networks: an oracle for flows, ages and decay.
import type { Network } from '@rillmark/science/network/network.ts'
import {
  InitHydOption,
  LinkProperty,
  NodeProperty,
  Option,
  Project,
  QualityType,
  TimeParameter,
  Workspace,
} from 'epanet-js'
import { coolingPerDay, demandsOf, type EngineTimes, engineText, heatPerM3K, holdsFlow } from './engine-text.ts'
import { qualitySteps } from './quality-steps.ts'

/**
 * `age` in hours; `bulk` and `wall` the residual with that decay alone; `trace` the excess over the air's temperature, as a
 * constituent that decays at the rate at which the excess is lost.
 */
export type Constituent = 'age' | 'bulk' | 'wall' | 'trace'

export interface EngineRun extends EngineTimes {
  constituents: readonly Constituent[]
  ambientC: number
  /** The quality is read once in so many of its steps. */
  readEvery: number
  /** Parcels nearer to each other than this are merged: hours, or shares of what enters. Needed only with constituents. */
  same?: { hours: number; share: number }
}

/** One constituent over the last span: rows = nodes, columns = hydraulic steps, means of the quality steps within each. */
export interface EngineRecord {
  values: Float64Array
  /** The same of the span before. */
  before: Float64Array
}

export interface EngineAnswer {
  steps: number
  /** L/min from → to on the last span: rows = pipes, columns = hydraulic steps. */
  flows: Float64Array
  records: Partial<Record<Constituent, EngineRecord>>
}

const workspace = new Workspace()
await workspace.loadModule()
const MINUTES_PER_DAY = 1440
const DAY_S = 86_400
const HOURS_PER_DAY = 24

const SAME = { hours: 0.001, share: 0.0001 }
/** What enters is 1 mg/L, or some ten kelvin warmer than the air. */
const ENTERS: Record<Constituent, number> = { age: 0, bulk: 1, wall: 1, trace: 10 }

/** Runs the engine over some spans: the hydraulics once, then each constituent on them. */
export function runEngine(network: Network, run: EngineRun): EngineAnswer {
  const { text, held } = engineText(network, run)
  const project = new Project(workspace)
  workspace.writeFile('network.inp', text)
  project.open('network.inp', 'network.rpt', 'network.out')
  try {
    const flows = solveFlows(project, { network, run, held })
    const records: EngineAnswer['records'] = {}
    for (const constituent of run.constituents) {
      describe(project, { network, run, constituent })
      records[constituent] = carry(project, { network, run })
    }
    return { steps: run.spanMinutes / run.stepMinutes, flows, records }
  } finally {
    project.close()
  }
}

interface Solve {
  network: Network
  run: EngineRun
  held: ReadonlyMap<number, string>
}

function solveFlows(project: Project, { network, run, held }: Solve): Float64Array {
  const { spans, spanMinutes, stepMinutes } = run
  const [spanS, stepS] = [spanMinutes * 60, stepMinutes * 60]
  const steps = spanMinutes / stepMinutes
  const flows = new Float64Array(network.pipes.length * steps)
  const links = network.pipes.map((_, at) => project.getLinkIndex(`P${at}`) - 1)
  const feeds = feedsOf(project, { network, run, held })
  project.openH()
  project.initH(InitHydOption.Save)
  for (;;) {
    const step = Math.floor((project.getTimeParameter(TimeParameter.HTime) % DAY_S) / stepS)
    for (const feed of feeds) project.setLinkValue(feed.valve, LinkProperty.Setting, settingOf(feed, step))
    const now = project.runH()
    if (now >= (spans - 1) * spanS && now < spans * spanS) {
      const all = project.getLinkValues(LinkProperty.Flow)
      const column = Math.floor((now % spanS) / stepS)
      for (const [at, link] of links.entries()) flows[at * steps + column] = all[link] ?? 0
    }
    const seconds = project.nextH()
    for (const feed of feeds) noteFeed(project, { feed, step, minutes: seconds / 60 })
    if (seconds <= 0) break
  }
  project.closeH()
  return flows
}

interface Feed {
  valve: number
  /** What came in since the start beyond what was drawn. */
  excessL: number
  /** What the valve let through beyond its setting when last looked at. */
  leakLPerMin: number
  /** All that is drawn from the tank's body of water in each step of the day, L/min. */
  drawn: Float64Array
}

function feedsOf(project: Project, { network, run, held }: Solve): Feed[] {
  const demands = demandsOf(network, run.stepMinutes)
  return [...held].flatMap(([at, valve]) => {
    const pipe = network.pipes[at]
    const vessel = network.nodes[pipe?.to ?? -1]
    if (pipe === undefined || vessel?.kind !== 'vessel' || pipe.returning) return []
    const drawn = new Float64Array(MINUTES_PER_DAY / run.stepMinutes)
    for (const node of downstream(network, pipe.to))
      for (const [step, flow] of (demands[node] ?? []).entries()) drawn[step] = (drawn[step] ?? 0) + flow
    return [{ valve: project.getLinkIndex(valve), excessL: 0, leakLPerMin: 0, drawn }]
  })
}

/** Within so many minutes the feed makes good what its valve, which is not quite exact, brought too much or too little. */
const MENDING_MINUTES = 30

function settingOf({ drawn, excessL, leakLPerMin }: Feed, step: number): number {
  return Math.max(0, (drawn[step] ?? 0) - leakLPerMin - excessL / MENDING_MINUTES)
}

/** The tank's own level will not do: the engine leaves it as it is for less than a drop in a few seconds, but carries that water. */
function noteFeed(project: Project, { feed, step, minutes }: { feed: Feed; step: number; minutes: number }): void {
  const flow = project.getLinkValue(feed.valve, LinkProperty.Flow)
  feed.leakLPerMin = flow - project.getLinkValue(feed.valve, LinkProperty.Setting)
  feed.excessL += (flow - (feed.drawn[step] ?? 0)) * minutes
}

/** Nodes joined to a vessel by pipes that are not its feed. */
function downstream(network: Network, vessel: number): Set<number> {
  const found = new Set([vessel])
  const open = network.pipes.filter((pipe) => !holdsFlow(network, pipe))
  for (let before = 0; before < found.size; ) {
    before = found.size
    for (const { from, to } of open) {
      if (found.has(from)) found.add(to)
      else if (found.has(to)) found.add(from)
    }
  }
  return found
}

function describe(
  project: Project,
  { network, run, constituent }: { network: Network; run: EngineRun; constituent: Constituent },
): void {
  const age = constituent === 'age'
  project.setQualityType(age ? QualityType.Age : QualityType.Chem, 'it', 'mg/L', '')
  const { hours, share } = run.same ?? SAME
  project.setOption(Option.Tolerance, age ? hours : share * ENTERS[constituent])
  for (const [at, node] of network.nodes.entries()) {
    const index = project.getNodeIndex(`N${at}`)
    const entering = node.kind === 'source' ? enters(constituent, { ...node, ambientC: run.ambientC }) : 0
    project.setNodeValue(index, NodeProperty.Initqual, entering)
    if (node.kind === 'vessel') {
      const { bulkPerHour } = network.chemistry
      const lossPerDay = (node.lossWPerK * DAY_S) / ((node.volumeL / 1000) * heatPerM3K(run.ambientC))
      const perDay = { age: 0, wall: 0, bulk: bulkPerHour * HOURS_PER_DAY, trace: lossPerDay }[constituent]
      project.setNodeValue(index, NodeProperty.TankKBulk, -perDay)
    }
  }
  for (const [at, pipe] of network.pipes.entries()) {
    const link = project.getLinkIndex(`P${at}`)
    const { bulkPerHour, wallMPerHour } = network.chemistry
    const bulk = { age: 0, wall: 0, bulk: bulkPerHour * HOURS_PER_DAY, trace: coolingPerDay(pipe, run.ambientC) }
    project.setLinkValue(link, LinkProperty.KBulk, -bulk[constituent])
    project.setLinkValue(link, LinkProperty.KWall, constituent === 'wall' ? -wallMPerHour * HOURS_PER_DAY : 0)
  }
}

function enters(
  constituent: Constituent,
  water: { temperatureC: number; residualMgPerL: number; ambientC: number },
): number {
  if (constituent === 'age') return 0
  return constituent === 'trace' ? water.temperatureC - water.ambientC : water.residualMgPerL
}

function carry(project: Project, { network, run }: { network: Network; run: EngineRun }): EngineRecord {
  const { spans, spanMinutes, stepMinutes, qualityStepS, readEvery } = run
  const [spanS, stepS] = [spanMinutes * 60, stepMinutes * 60]
  const steps = spanMinutes / stepMinutes
  const share = (qualityStepS * readEvery) / stepS
  const nodes = network.nodes.map((_, at) => project.getNodeIndex(`N${at}`) - 1)
  const empty = () => new Float64Array(nodes.length * steps)
  const record = { values: empty(), before: empty() }
  const see = (count: number, second: number): void => {
    const span = Math.floor(second / spanS)
    if (count % readEvery !== 0 || span < spans - 2 || span >= spans) return
    const into = span === spans - 1 ? record.values : record.before
    const column = Math.floor((second % spanS) / stepS)
    const all = project.getNodeValues(NodeProperty.Quality)
    for (let at = 0; at < nodes.length; at += 1) {
      const cell = at * steps + column
      into[cell] = (into[cell] ?? 0) + (all[nodes[at] ?? 0] ?? 0) * share
    }
  }
  qualitySteps(project, { stepS: qualityStepS, see })
  return record
}
