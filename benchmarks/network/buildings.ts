// Buildings of any size, made up: a cold and a hot header, risers, floors, rooms with three taps each, draws at random from a seed.
import type { Draw, Network, NetworkNode, NetworkOutlet, NetworkPipe } from '@rillmark/science/network/network.ts'
import { type RandomSource, seededRandom } from '@rillmark/science/random/random-source.ts'

/**
 * `tree`: nothing goes round. `rings`: pumped returns whose flows friction decides, and cold risers joined at the top, half-way and
 * at the foot. `returns`: a known flow comes back from each hot riser.
 */
export type Shape = 'tree' | 'rings' | 'returns'

const FLOORS = 10
const PIPES_A_RISER = 100
const AMBIENT_C = 22
const RETURN_L_PER_MIN = 1

interface Site {
  chance: RandomSource
  nodes: NetworkNode[]
  pipes: NetworkPipe[]
  outlets: NetworkOutlet[]
}

/** A building of about so many pipes. */
export function building({ pipes, shape, seed }: { pipes: number; shape: Shape; seed: number }): Network {
  const site: Site = { chance: seededRandom(seed), nodes: [], pipes: [], outlets: [] }
  const entry = addNode(site, { id: 'entry', kind: 'source', temperatureC: 14, residualMgPerL: 0.8 })
  const store = addNode(site, {
    id: 'store',
    kind: 'vessel',
    volumeL: pipes * 1.5,
    layers: 4,
    heatedFromLayer: 1,
    setpointC: 60,
    returnLayer: 1,
    lossWPerK: 3,
    ambientC: AMBIENT_C,
  })
  const foot = addNode(site, { id: 'foot', kind: 'junction' })
  addPipe(site, { from: entry, to: foot, lengthM: 8, boreMm: 51 })
  addPipe(site, { from: foot, to: store, lengthM: 3, boreMm: 51 })
  const risers = Math.max(1, Math.round(pipes / PIPES_A_RISER))
  const cold = headerOf(site, { from: foot, risers, circuit: 'cold' })
  const hot = headerOf(site, { from: store, risers, circuit: 'hot' })
  const tops = cold.map((at, riser) => addRiser(site, { cold: at, hot: hot[riser] ?? 0, riser }))
  if (shape === 'rings') addRings(site, tops, store)
  if (shape === 'returns')
    for (const { hot: floors } of tops) {
      const from = floors.at(-1) ?? 0
      addPipe(site, { from, to: store, lengthM: 45, boreMm: 13, returning: true, fixedFlowLPerMin: RETURN_L_PER_MIN })
    }
  return {
    nodes: site.nodes,
    pipes: site.pipes,
    outlets: site.outlets,
    valves: [],
    chemistry: {
      disinfectant: 'free-chlorine',
      bulkPerHour: 0.02,
      wallMPerHour: 0.0005,
      referenceC: 20,
      activationKJPerMol: 50,
      standingSherwood: 3.65,
    },
  }
}

function addNode({ nodes }: Site, node: NetworkNode): number {
  nodes.push(node)
  return nodes.length - 1
}

function addPipe({ pipes }: Site, words: Partial<NetworkPipe> & { from: number; to: number }): void {
  pipes.push({
    id: `pipe ${pipes.length}`,
    returning: false,
    lengthM: 3,
    boreMm: 13,
    roughnessMm: 0.0015,
    fittingLoss: 1.5,
    lossWPerMK: 0.25,
    lossAtK: 38,
    lossPower: 0.1,
    wallHeatJPerMK: 250,
    ambientC: AMBIENT_C,
    ...words,
  })
}

/** The places at which the risers of a circuit begin. */
function headerOf(site: Site, { from, risers, circuit }: { from: number; risers: number; circuit: string }): number[] {
  let last = from
  return Array.from({ length: risers }, (_, riser) => {
    const at = addNode(site, { id: `${circuit} ${riser}`, kind: 'junction' })
    addPipe(site, { from: last, to: at, lengthM: 6, boreMm: riser < risers / 2 ? 51 : 39 })
    last = at
    return at
  })
}

/** Nodes of a riser by floor, of both circuits. */
interface Riser {
  cold: number[]
  hot: number[]
}

function addRiser(site: Site, { cold, hot, riser }: { cold: number; hot: number; riser: number }): Riser {
  const made: Riser = { cold: [], hot: [] }
  let [lastCold, lastHot] = [cold, hot]
  for (let floor = 0; floor < FLOORS; floor++) {
    const of = (circuit: string) => addNode(site, { id: `${circuit} ${riser}/${floor}`, kind: 'junction' })
    const [coldNode, hotNode] = [of('cold'), of('hot')]
    const boreMm = floor < FLOORS / 2 ? 25 : 20
    addPipe(site, { from: lastCold, to: coldNode, boreMm })
    addPipe(site, { from: lastHot, to: hotNode, boreMm })
    addRoom(site, { cold: coldNode, hot: hotNode, name: `${riser}/${floor}` })
    made.cold.push(coldNode)
    made.hot.push(hotNode)
    ;[lastCold, lastHot] = [coldNode, hotNode]
  }
  return made
}

interface Use {
  name: string
  perDay: number
  minutes: readonly [number, number]
  lPerMin: number
  hotShare: number
}
const USES: readonly Use[] = [
  { name: 'basin', perDay: 9, minutes: [1, 1], lPerMin: 4, hotShare: 0.4 },
  { name: 'shower', perDay: 1.5, minutes: [4, 9], lPerMin: 8, hotShare: 0.6 },
  { name: 'kitchen', perDay: 6, minutes: [1, 2], lPerMin: 5, hotShare: 0.5 },
]

/** Eight pipes: a branch of each circuit, and from it one to each of three taps. */
function addRoom(site: Site, { cold, hot, name }: { cold: number; hot: number; name: string }): void {
  const branch = (from: number) => {
    const to = addNode(site, { id: `branch ${from}`, kind: 'junction' })
    addPipe(site, { from, to, lengthM: 4, boreMm: 16 })
    return to
  }
  const [coldBranch, hotBranch] = [branch(cold), branch(hot)]
  for (const use of USES) {
    const draws = drawsOf(site.chance, use)
    const tap = (from: number, { circuit, share }: { circuit: string; share: number }) => {
      const id = `${use.name} ${name} ${circuit}`
      const at = addNode(site, { id, kind: 'junction' })
      addPipe(site, { from, to: at, lengthM: 2 })
      site.outlets.push({
        id,
        coldNode: at,
        draws: draws.map((draw) => ({ ...draw, flowLPerMin: share * draw.flowLPerMin })),
      })
    }
    tap(coldBranch, { circuit: 'cold', share: 1 - use.hotShare })
    tap(hotBranch, { circuit: 'hot', share: use.hotShare })
  }
}

/** Whole minutes, most of them in the morning and the evening. */
function drawsOf(chance: RandomSource, { perDay, minutes: [least, most], lPerMin }: Use): Draw[] {
  const count = Math.floor(perDay * (0.5 + chance.uniform()) + chance.uniform())
  return Array.from({ length: count }, () => {
    const hour =
      chance.uniform() < 0.7 ? (chance.uniform() < 0.5 ? 7.5 : 19) + 1.3 * chance.normal() : 24 * chance.uniform()
    return {
      startMinute: Math.floor(((hour + 24) % 24) * 60),
      minutes: least + Math.floor(chance.uniform() * (most - least + 1)),
      flowLPerMin: lPerMin * (0.7 + 0.6 * chance.uniform()),
    }
  })
}

const PUMP = { shutOffHeadM: 4, headDropMPerLPerMin2: 4 / 120 ** 2 }

function addRings(site: Site, risers: readonly Riser[], store: number): void {
  const pumped = site.pipes.find(({ from, to }) => from === store && to !== store)
  if (pumped !== undefined) pumped.pump = PUMP
  let collector = store
  for (const { hot } of risers) {
    const at = addNode(site, { id: `collector ${site.nodes.length}`, kind: 'junction' })
    addPipe(site, { from: at, to: collector, lengthM: 6, boreMm: 26, returning: collector === store })
    addPipe(site, { from: hot.at(-1) ?? 0, to: at, lengthM: 33, boreMm: 13, fittingLoss: 40 })
    collector = at
  }
  for (const [at, riser] of risers.entries()) {
    const next = risers[(at + 1) % risers.length]
    if (next === undefined || next === riser) continue
    for (const floor of [FLOORS - 1, FLOORS / 2])
      addPipe(site, { from: riser.cold[floor] ?? 0, to: next.cold[floor] ?? 0, lengthM: 6, boreMm: 20 })
  }
}
