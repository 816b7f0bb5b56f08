// Networks in few words, for the checks: what a check does not say is plain.
import type {
  Chemistry,
  Draw,
  Network,
  NetworkNode,
  NetworkOutlet,
  NetworkPipe,
  Vessel,
} from '@rillmark/science/network/network.ts'

/** Nothing decays. */
const INERT: Chemistry = {
  disinfectant: 'free-chlorine',
  bulkPerHour: 0,
  wallMPerHour: 0,
  referenceC: 20,
  activationKJPerMol: 0,
  standingSherwood: 2,
}

const PLAIN: Omit<NetworkPipe, 'id' | 'from' | 'to'> = {
  returning: false,
  lengthM: 1,
  boreMm: 13,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0,
  lossAtK: 38,
  lossPower: 0,
  wallHeatJPerMK: 0,
  ambientC: 20,
}
const PLAIN_VESSEL: Vessel = {
  volumeL: 100,
  layers: 1,
  heatedFromLayer: 0,
  returnLayer: 0,
  lossWPerK: 0,
  ambientC: 20,
}

type NodeWords =
  | 'junction'
  | 'mixed'
  | { source: { temperatureC?: number; residualMgPerL?: number } }
  | { vessel: Partial<Vessel> }
  | { heater: { setpointC: number } }

export interface NetworkWords {
  nodes: Record<string, NodeWords>
  /** By `from to`, both names of nodes, and a third word where two pipes join the same two. */
  pipes: Record<string, Partial<NetworkPipe>>
  /** By the name of the node: what is drawn constantly, L/min, or the draws. */
  draws: Record<string, number | readonly Draw[]>
  /** By any name: taps that mix from two nodes. */
  mixers?: Record<string, { hot: string; cold: string; draw: readonly Draw[] }>
  /** By the name of the mixed node: the nodes it takes from, and its set point. */
  valves?: Record<string, { hot: string; cold: string; setpointC: number }>
  chemistry?: Partial<Chemistry>
}

/** A network from its words; every outlet but mixers draws from the cold port. */
export function build({ nodes, pipes, draws, mixers = {}, valves = {}, chemistry }: NetworkWords): Network {
  const names = Object.keys(nodes)
  const indexOf = (name: string): number => {
    const at = names.indexOf(name)
    if (at < 0) throw new RangeError(`Cannot build a network because a node is missing: got ${name}`)
    return at
  }
  return {
    nodes: Object.entries(nodes).map(([id, words]) => nodeOf(id, words)),
    pipes: Object.entries(pipes).map(([id, words]) => {
      const [from = '', to = ''] = id.split(' ')
      return { ...PLAIN, ...words, id, from: indexOf(from), to: indexOf(to) }
    }),
    outlets: [
      ...Object.entries(draws).map(([name, draw]) => outletOf(`tap ${name}`, { coldNode: indexOf(name), draw })),
      ...Object.entries(mixers).map(([id, { hot, cold, draw }]) => ({
        id,
        hotNode: indexOf(hot),
        coldNode: indexOf(cold),
        draws: draw,
      })),
    ],
    valves: Object.entries(valves).map(([id, { hot, cold, setpointC }]) => ({
      id,
      hotNode: indexOf(hot),
      coldNode: indexOf(cold),
      mixedNode: indexOf(id),
      setpointC,
    })),
    chemistry: { ...INERT, ...chemistry },
  }
}

function nodeOf(id: string, words: NodeWords): NetworkNode {
  if (words === 'junction' || words === 'mixed') return { id, kind: words }
  if ('source' in words) return { id, kind: 'source', temperatureC: 20, residualMgPerL: 1, ...words.source }
  if ('vessel' in words) return { id, kind: 'vessel', ...PLAIN_VESSEL, ...words.vessel }
  return { id, kind: 'heater', ...words.heater }
}

function outletOf(id: string, { coldNode, draw }: { coldNode: number; draw: number | readonly Draw[] }): NetworkOutlet {
  return { id, coldNode, draws: typeof draw === 'number' ? constant(draw) : draw }
}

/** A draw that never stops. */
export function constant(flowLPerMin: number): readonly Draw[] {
  return [{ startMinute: 0, minutes: 1440, flowLPerMin }]
}

/** Litres in a pipe. */
export function volumeL({ lengthM, boreMm }: { lengthM: number; boreMm: number }): number {
  return ((Math.PI / 4) * boreMm ** 2 * lengthM) / 1000
}
