/**
 * A building's water in the terms of the simulation: nodes and pipes by number, one unit a quantity.
 *
 * Positive flow runs `from` → `to`; the hydraulics decide the sign. A place that draws hot and cold water is two nodes (its
 * ports), so that each node belongs to one body of water. Bodies of water meet in vessels, and at mixing valves, whose ports
 * are drains of one body and whose outlet is the source of another.
 */
export interface Network {
  nodes: readonly NetworkNode[]
  pipes: readonly NetworkPipe[]
  outlets: readonly NetworkOutlet[]
  valves: readonly NetworkValve[]
  chemistry: Chemistry
}

/**
 * `junction`: water mixes completely. `source`: water enters as given; its head holds the pressure. `vessel`: a tank or storage
 * heater, full at all times. `heater`: warms what passes to its set point and holds next to nothing. `mixed`: where a mixing
 * valve sends its water out; to the hydraulics a source.
 */
export type NetworkNode =
  | { id: string; kind: 'junction' }
  | { id: string; kind: 'source'; temperatureC: number; residualMgPerL: number }
  | ({ id: string; kind: 'vessel' } & Vessel)
  | { id: string; kind: 'heater'; setpointC: number }
  | { id: string; kind: 'mixed' }

export interface Vessel {
  volumeL: number
  /** Layers of equal volume, from the bottom; 1 is mixed throughout. Cold water enters the lowest, the outlet is at the top. */
  layers: number
  /** Heated from this layer upwards (0 the lowest); with no set point nothing is heated. */
  heatedFromLayer: number
  setpointC?: number | undefined
  /** Layer at which the water of a returning pipe comes in. */
  returnLayer: number
  lossWPerK: number
  ambientC: number
}

export interface NetworkPipe {
  id: string
  from: number
  to: number
  /** True for a pipe that brings water back to a vessel, which takes it in at its `returnLayer`. */
  returning: boolean
  lengthM: number
  boreMm: number
  roughnessMm: number
  /** Sum of loss coefficients of fittings and valves, on the velocity in the bore. */
  fittingLoss: number
  /** Loss coefficient of a metre of pipe where the water differs from the air by `lossAtK`. */
  lossWPerMK: number
  lossAtK: number
  /** The coefficient goes with this power of the difference: 0 where it does not change, about 0.1 to 0.25 for a bare pipe. */
  lossPower: number
  /** Heat held by the wall and half the insulation: it slows the cooling of standing water. */
  wallHeatJPerMK: number
  ambientC: number
  /** A flow that is known, such as a balanced return. */
  fixedFlowLPerMin?: number | undefined
  /** A pump in this pipe that pushes from `from` to `to`: head (m) = shutOffHeadM − headDropMPerLPerMin2 · flow². */
  pump?: { shutOffHeadM: number; headDropMPerLPerMin2: number } | undefined
  /** True where a check valve stops flow from `to` to `from`. */
  oneWay?: boolean | undefined
}

/** Where water leaves. With both ports, hot and cold water are drawn to reach the temperature of the draw. */
export interface NetworkOutlet {
  id: string
  hotNode?: number | undefined
  coldNode?: number | undefined
  draws: readonly Draw[]
}

/** Water drawn each day; it may run past midnight. A draw of 1440 minutes is constant. */
export interface Draw {
  startMinute: number
  minutes: number
  flowLPerMin: number
  /** Use temperature; undefined draws from the one port there is, or half from each of two. */
  mixToC?: number | undefined
}

/** A mixing valve: takes from both ports what its outlet sends on, so as to hold its set point where it can. */
export interface NetworkValve {
  id: string
  hotNode: number
  coldNode: number
  mixedNode: number
  setpointC: number
}

/** How the residual decays and what favours growth; tables over temperature are made from it once. */
export interface Chemistry {
  disinfectant: 'free-chlorine' | 'chloramine' | 'other' | 'none'
  bulkPerHour: number
  wallMPerHour: number
  referenceC: number
  /** undefined: a fixed factor for each kelvin. */
  activationKJPerMol?: number | undefined
  /** Of the supply, for what free chlorine kills; undefined takes a usual one. */
  pH?: number | undefined
  /** Sherwood number of standing water. */
  standingSherwood: number
}

/** The quantities carried with the water, in the order of every record. */
export const QUANTITIES = ['ageHours', 'temperatureC', 'residualMgPerL', 'growth', 'standingHours'] as const
export type Quantity = (typeof QUANTITIES)[number]
