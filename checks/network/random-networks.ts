import type { Draw, Network, NetworkNode, NetworkOutlet, NetworkPipe } from '@rillmark/science/network/network.ts'
import { type RandomSource, seededRandom } from '@rillmark/science/random/random-source.ts'
import { build, constant } from './build.ts'

export interface RandomNetworkWish {
  seed: number
  pipes: number
  /** Pipes beyond those of a tree. */
  loops: number
  /** A second place where water comes in, cooler and with less residual. */
  twoSources?: boolean
  /** A tank after a third of the pipes, and how many returns of known flow come back to it from what lies beyond. */
  vessel?: { returns: number }
  /** Fittings and valves lose far more than pipes, so that flows divide alike however warm, and so thin, the water is. */
  throttled?: boolean
  /** Flows so many times as large, in bores of as many times the area: a site rather than a building. 1 where left out. */
  scale?: number
  /** Draws that start and stop; without it every draw is constant. Their starts and lengths are multiples of it. */
  stepMinutes?: number
}

const AMBIENT_C = 20
const ENTRY = { temperatureC: 32, residualMgPerL: 1 }
const SECOND_ENTRY = { temperatureC: 26, residualMgPerL: 0.4 }
const MINUTES_PER_DAY = 1440

interface Site {
  chance: RandomSource
  throttled: boolean
  nodes: NetworkNode[]
  pipes: NetworkPipe[]
  /** Node at which the present body of water begins. */
  root: number
}

/**
 * A building's pipes at random; the same wish gives the same network. Every loss is proportional to the difference from air of 20 °C
 * and nothing warms the water, so that its excess decays as a constituent would.
 */
export function randomNetwork(wish: RandomNetworkWish): Network {
  const site: Site = {
    chance: seededRandom(wish.seed),
    throttled: wish.throttled === true,
    nodes: [{ id: 'entry', kind: 'source', ...ENTRY }],
    pipes: [],
    root: 0,
  }
  const branches = wish.pipes - wish.loops - (wish.twoSources ? 1 : 0) - (wish.vessel?.returns ?? 0)
  for (let count = 0; count < branches; count++) {
    if (wish.vessel && count === Math.floor(branches / 3)) addVessel(site)
    else addBranch(site)
  }
  for (let count = 0; count < wish.loops; count++) addLoop(site)
  if (wish.twoSources) addSecondEntry(site)
  const outlets = addOutlets(site, wish)
  sizeBores(site, outlets)
  for (let count = 0; count < (wish.vessel?.returns ?? 0); count++) addReturn(site, count)
  const network = { nodes: site.nodes, pipes: site.pipes, outlets, valves: [], chemistry: chemistryOf(site.chance) }
  return scaled(network, wish.scale ?? 1)
}

/** Velocities and times stay what they are. */
function scaled(network: Network, scale: number): Network {
  const { pipes, outlets } = network
  const widened = (pipe: NetworkPipe) => ({
    ...pipe,
    boreMm: pipe.boreMm * Math.sqrt(scale),
    lossWPerMK: pipe.lossWPerMK * scale,
  })
  const opened = ({ draws, ...outlet }: NetworkOutlet) => ({
    ...outlet,
    draws: draws.map((draw) => ({ ...draw, flowLPerMin: draw.flowLPerMin * scale })),
  })
  return { ...network, pipes: pipes.map(widened), outlets: outlets.map(opened) }
}

const between = (chance: RandomSource, [low, high]: readonly [number, number]) => low + (high - low) * chance.uniform()
const pick = <T>(chance: RandomSource, from: readonly T[]): T => from[Math.floor(chance.uniform() * from.length)] as T

function chemistryOf(chance: RandomSource): Network['chemistry'] {
  const [bulkPerHour, wallMPerHour] = [between(chance, [0.1, 0.6]), between(chance, [0.0005, 0.003])]
  const plain = build({ nodes: {}, pipes: {}, draws: {} }).chemistry
  return { ...plain, bulkPerHour, wallMPerHour, referenceC: AMBIENT_C }
}

function addPipe(
  { chance, pipes, throttled }: Site,
  ends: { from: number; to: number; lengthM?: number },
): NetworkPipe {
  const pipe: NetworkPipe = {
    id: `pipe ${pipes.length}`,
    returning: false,
    lengthM: between(chance, [1, 15]),
    boreMm: 13,
    roughnessMm: 0.0015,
    fittingLoss: between(chance, throttled ? [200, 800] : [0, 4]),
    lossWPerMK: between(chance, [0.15, 0.5]),
    lossAtK: 10,
    lossPower: 0,
    wallHeatJPerMK: 0,
    ambientC: AMBIENT_C,
    ...ends,
  }
  pipes.push(pipe)
  return pipe
}

/** Nodes of the present body of water but the one it comes from. */
function within({ nodes, root }: Site): number[] {
  return nodes.flatMap((node, at) => (at > root && node.kind === 'junction' ? [at] : []))
}

/** A chain mostly, with branches here and there. */
function parent(site: Site): number {
  const nodes = within(site)
  if (nodes.length === 0) return site.root
  return site.chance.uniform() < 0.55 ? (nodes.at(-1) as number) : pick(site.chance, nodes)
}

function addBranch(site: Site): void {
  const from = parent(site)
  const to = site.nodes.length
  site.nodes.push({ id: `node ${to}`, kind: 'junction' })
  // Some pipes are described against the flow, but none of a vessel: those into one are taken for its feed.
  const against = site.chance.uniform() < 0.3 && from !== site.root
  addPipe(site, against ? { from: to, to: from } : { from, to })
}

function addVessel(site: Site): void {
  const { chance, nodes } = site
  const from = pick(chance, within(site))
  const to = nodes.length
  nodes.push({
    id: 'tank',
    kind: 'vessel',
    volumeL: between(chance, [150, 500]),
    layers: 1,
    heatedFromLayer: 0,
    returnLayer: 0,
    lossWPerK: between(chance, [0.5, 2]),
    ambientC: AMBIENT_C,
  })
  addPipe(site, { from, to })
  site.root = to
}

function addLoop(site: Site): void {
  const nodes = within(site)
  const joined = (a: number, b: number) =>
    site.pipes.some(({ from, to }) => (from === a && to === b) || (from === b && to === a))
  for (let tries = 0; tries < 100; tries++) {
    const [from, to] = [pick(site.chance, nodes), pick(site.chance, nodes)]
    if (from === to || joined(from, to)) continue
    addPipe(site, { from, to })
    return
  }
}

function addSecondEntry(site: Site): void {
  const from = site.nodes.length
  const to = pick(site.chance, within(site))
  site.nodes.push({ id: 'second entry', kind: 'source', ...SECOND_ENTRY })
  addPipe(site, { from, to })
}

function addReturn(site: Site, count: number): void {
  const from = pick(site.chance, within(site).slice(-6))
  const pipe = addPipe(site, { from, to: site.root })
  Object.assign(pipe, {
    id: `return ${count}`,
    returning: true,
    boreMm: 13,
    fixedFlowLPerMin: between(site.chance, [0.5, 2]),
  })
}

/** At every end, with few exceptions, and at some nodes on the way; beyond a vessel one of them never stops. */
function addOutlets({ chance, nodes, pipes, root }: Site, { stepMinutes }: RandomNetworkWish): NetworkOutlet[] {
  const degree = nodes.map((_, at) => pipes.filter(({ from, to }) => from === at || to === at).length)
  const outlets: NetworkOutlet[] = []
  for (const [at, node] of nodes.entries()) {
    if (node.kind !== 'junction' || chance.uniform() > (degree[at] === 1 ? 0.85 : 0.25)) continue
    const steady = stepMinutes === undefined || chance.uniform() < 0.2
    const draws = steady ? constant(Math.exp(between(chance, [-3, -0.7]))) : drawsOf(chance, stepMinutes)
    outlets.push({ id: `tap ${at}`, coldNode: at, draws })
  }
  if (root > 0) outlets.push({ id: 'never closed', coldNode: nodes.length - 1, draws: constant(0.1) })
  return outlets
}

function drawsOf(chance: RandomSource, stepMinutes: number): Draw[] {
  const steps = MINUTES_PER_DAY / stepMinutes
  return Array.from({ length: 2 + Math.floor(chance.uniform() * 9) }, () => ({
    startMinute: Math.floor(chance.uniform() * steps) * stepMinutes,
    minutes: (1 + Math.floor(chance.uniform() * 4)) * stepMinutes,
    flowLPerMin: between(chance, [1, 8]),
  }))
}

/** Wider where more outlets hang on a pipe: counted in the tree of first connections. */
function sizeBores({ chance, nodes, pipes }: Site, outlets: readonly NetworkOutlet[]): void {
  const count = nodes.map((_, at) => outlets.filter(({ coldNode }) => coldNode === at).length)
  for (let at = pipes.length - 1; at >= 0; at--) {
    const pipe = pipes[at] as NetworkPipe
    const [near, far] = [Math.min(pipe.from, pipe.to), Math.max(pipe.from, pipe.to)]
    const served = count[far] ?? 0
    count[near] = (count[near] ?? 0) + served
    pipe.boreMm = pick(chance, served < 2 ? [10, 13] : served < 5 ? [16, 20] : [20, 26, 32])
  }
}
