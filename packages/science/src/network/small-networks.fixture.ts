import type { Network, NetworkNode, NetworkPipe, NetworkValve, Vessel } from './network.ts'

type NodeWords = 'junction' | 'mixed' | { sourceC: number } | { heaterC: number } | { vessel: Partial<Vessel> }

interface Words {
  nodes: Record<string, NodeWords>
  /** By `from to`. */
  pipes: Record<string, Partial<NetworkPipe>>
  /** By any name: its ports, and draws. */
  outlets?: Record<string, { hot?: string; cold?: string; draws: Network['outlets'][number]['draws'] }>
  /** By any name. */
  valves?: Record<string, { hot: string; cold: string; mixed: string; setpointC: number }>
  chemistry?: Partial<Network['chemistry']>
}

/**
 * A network in few words, whose pipes, if nothing else is said, are 3 m of 20 mm that lose a little heat to air of 20 °C.
 *
 * @source none: for tests
 */
export function smallNetwork({ nodes, pipes, outlets = {}, valves = {}, chemistry }: Words): Network {
  const names = Object.keys(nodes)
  const at = (name: string): number => names.indexOf(name)
  const port = (name: string | undefined): number | undefined => (name === undefined ? undefined : at(name))
  return {
    nodes: Object.entries(nodes).map(([id, words]) => nodeOf(id, words)),
    pipes: Object.entries(pipes).map(([id, words]) => {
      const [from = '', to = ''] = id.split(' ')
      return { ...PLAIN, ...words, id, from: at(from), to: at(to) }
    }),
    outlets: Object.entries(outlets).map(([id, { hot, cold, draws }]) => ({
      id,
      hotNode: port(hot),
      coldNode: port(cold),
      draws,
    })),
    valves: Object.entries(valves).map(
      ([id, { hot, cold, mixed, setpointC }]): NetworkValve => ({
        id,
        hotNode: at(hot),
        coldNode: at(cold),
        mixedNode: at(mixed),
        setpointC,
      }),
    ),
    chemistry: {
      disinfectant: 'free-chlorine',
      bulkPerHour: 0.02,
      wallMPerHour: 0.0005,
      referenceC: 20,
      standingSherwood: 2,
      ...chemistry,
    },
  }
}

const PLAIN: Omit<NetworkPipe, 'id' | 'from' | 'to'> = {
  returning: false,
  lengthM: 3,
  boreMm: 20,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0.2,
  lossAtK: 38,
  lossPower: 0,
  wallHeatJPerMK: 0,
  ambientC: 20,
}

const PLAIN_VESSEL: Vessel = {
  volumeL: 200,
  layers: 1,
  heatedFromLayer: 0,
  returnLayer: 0,
  lossWPerK: 0,
  ambientC: 20,
}

function nodeOf(id: string, words: NodeWords): NetworkNode {
  if (typeof words === 'string') return { id, kind: words }
  if ('sourceC' in words) return { id, kind: 'source', temperatureC: words.sourceC, residualMgPerL: 0.5 }
  if ('heaterC' in words) return { id, kind: 'heater', setpointC: words.heaterC }
  return { id, kind: 'vessel', ...PLAIN_VESSEL, ...words.vessel }
}

/**
 * So many draws a day, evenly apart.
 *
 * @source none: for tests
 */
export const evenly = (times: number, draw: { minutes: number; flowLPerMin: number; mixToC?: number }) =>
  Array.from({ length: times }, (_, nth) => ({ startMinute: (1440 / times) * (nth + 0.5), ...draw }))
