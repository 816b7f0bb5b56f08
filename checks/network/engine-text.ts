import type { Network, NetworkPipe } from '@rillmark/science/network/network.ts'
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '@rillmark/science/water/liquid-water.ts'

/** Kinematic viscosity of water at 20 °C, mm²/s (IAPWS), and the one the engine reckons with by itself. */
const MM2_PER_S = 1.0034
const ENGINE_MM2_PER_S = 1.1e-5 * 0.3048 ** 2 * 1e6
const MINUTES_PER_DAY = 1440
const HEAD_M = 60
/** Tanks are low and wide; their level, m, stands at the middle of its range. */
const TANK_LEVEL_M = 1
const MULTIPLIERS_A_LINE = 20
const DAY_S = 86_400
const MM_PER_M = 1000

export interface EngineText {
  text: string
  /** Pipes whose flow is held by a valve in series: index of the pipe, name of the valve. */
  held: ReadonlyMap<number, string>
}

export interface EngineTimes {
  /** How long is simulated, in spans of which the last two are recorded: a day, or less for constant draws. */
  spans: number
  spanMinutes: number
  stepMinutes: number
  qualityStepS: number
}

/** L/min drawn at each node (row) in each step of the day (column), from the outlets of one port. */
export function demandsOf(network: Network, stepMinutes: number): Float64Array[] {
  const steps = MINUTES_PER_DAY / stepMinutes
  const rows = network.nodes.map(() => new Float64Array(steps))
  for (const outlet of network.outlets) {
    if (outlet.hotNode !== undefined && outlet.coldNode !== undefined)
      throw new RangeError(`Cannot tell the engine of ${outlet.id} because it has two ports`)
    const row = rows[outlet.hotNode ?? outlet.coldNode ?? -1]
    if (row === undefined) throw new RangeError(`Cannot tell the engine of ${outlet.id} because it has no node`)
    for (const { startMinute, minutes, flowLPerMin } of outlet.draws) {
      for (let minute = startMinute; minute < startMinute + minutes; minute += 1) {
        const step = Math.floor((minute % MINUTES_PER_DAY) / stepMinutes)
        row[step] = (row[step] ?? 0) + flowLPerMin / stepMinutes
      }
    }
  }
  return rows
}

/**
 * A network as the input text of the EPANET engine (litres a minute, metres, millimetres, Darcy and Weisbach's friction).
 *
 * A vessel becomes a mixed tank. What enters it is held by flow valves (the pipes that bring water back at their fixed flow,
 * the feed at what is drawn beyond it), so that it stays full. A pump gives the head that the valves throttle.
 */
export function engineText(network: Network, times: EngineTimes): EngineText {
  const held = new Map<number, string>()
  const demands = demandsOf(network, times.stepMinutes)
  const parts = nodeParts(network, demands)
  const pipes: string[] = []
  const extra: LinkLines = { junctions: [], pumps: [], valves: [] }
  for (const [at, pipe] of network.pipes.entries()) {
    const from = holdsFlow(network, pipe) ? holdFlow(pipe, { at, extra, held }) : `N${pipe.from}`
    const { lengthM, boreMm, roughnessMm, fittingLoss, oneWay } = pipe
    const status = oneWay === true ? 'CV' : 'OPEN'
    if (pipe.pump === undefined) {
      pipes.push(`P${at} ${from} N${pipe.to} ${lengthM} ${boreMm} ${roughnessMm} ${fittingLoss} ${status}`)
    } else {
      extra.junctions.push(`J${at} 0 0`)
      extra.pumps.push(`U${at} ${from} J${at} HEAD C${at}`)
      pipes.push(`P${at} J${at} N${pipe.to} ${lengthM} ${boreMm} ${roughnessMm} ${fittingLoss} ${status}`)
    }
  }
  const text = [
    ...section('JUNCTIONS', [...parts.junctions, ...extra.junctions]),
    ...section('RESERVOIRS', parts.reservoirs),
    ...section('TANKS', parts.tanks),
    ...section('MIXING', parts.mixing),
    ...section('PIPES', pipes),
    ...section('PUMPS', extra.pumps),
    ...section('VALVES', extra.valves),
    ...section('CURVES', curves(network)),
    ...section('PATTERNS', parts.patterns),
    ...section('TIMES', timeLines(times)),
    ...section('OPTIONS', OPTIONS),
    ...section('REPORT', ['Status No', 'Summary No', 'Messages No']),
    '[END]',
  ].join('\n')
  return { text, held }
}

interface LinkLines {
  junctions: string[]
  pumps: string[]
  valves: string[]
}

const OPTIONS = [
  'Units LPM',
  'Headloss D-W',
  'Quality None',
  'Trials 200',
  'Accuracy 0.0000001',
  'Unbalanced Continue 10',
  `Viscosity ${MM2_PER_S / ENGINE_MM2_PER_S}`,
  'Diffusivity 1',
  'Tolerance 0.0001',
]

function section(name: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [`[${name}]`, ...lines, '']
}

function timeLines({ spans, spanMinutes, stepMinutes, qualityStepS }: EngineTimes): string[] {
  return [
    `Duration ${clock(spans * spanMinutes * 60)}`,
    `Hydraulic Timestep ${clock(stepMinutes * 60)}`,
    `Quality Timestep ${clock(qualityStepS)}`,
    `Pattern Timestep ${clock(stepMinutes * 60)}`,
    'Report Timestep 24:00',
  ]
}

function clock(seconds: number): string {
  const two = (value: number) => String(value).padStart(2, '0')
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`
}

function nodeParts(network: Network, demands: readonly Float64Array[]) {
  const [junctions, reservoirs, tanks, mixing, patterns] = [[], [], [], [], []] as [
    string[],
    string[],
    string[],
    string[],
    string[],
  ]
  for (const [at, node] of network.nodes.entries()) {
    const row = demands[at] ?? new Float64Array(1)
    if (node.kind === 'source') reservoirs.push(`N${at} ${HEAD_M}`)
    else if (node.kind === 'vessel') {
      const diameterM = Math.sqrt((4 * node.volumeL) / MM_PER_M / (Math.PI * TANK_LEVEL_M))
      tanks.push(`N${at} 0 ${TANK_LEVEL_M} 0 ${2 * TANK_LEVEL_M} ${diameterM} 0`)
      mixing.push(`N${at} MIXED`)
    } else if (node.kind === 'junction') {
      const first = row[0] ?? 0
      const constant = row.every((each) => each === first)
      junctions.push(constant ? `N${at} 0 ${first}` : `N${at} 0 1 D${at}`)
      if (!constant) patterns.push(...patternLines(`D${at}`, row))
    } else throw new RangeError(`Cannot tell the engine of ${node.id} because it is a ${node.kind}`)
  }
  return { junctions, reservoirs, tanks, mixing, patterns }
}

function patternLines(name: string, row: Float64Array): string[] {
  const lines: string[] = []
  for (let at = 0; at < row.length; at += MULTIPLIERS_A_LINE)
    lines.push(`${name} ${Array.from(row.subarray(at, at + MULTIPLIERS_A_LINE), plain).join(' ')}`)
  return lines
}

const plain = (value: number): string => String(Math.round(value * 1e9) / 1e9)

/** Pipes into a vessel, and pipes of a known flow. */
export function holdsFlow({ nodes }: Network, pipe: NetworkPipe): boolean {
  return nodes[pipe.to]?.kind === 'vessel' || pipe.fixedFlowLPerMin !== undefined
}

function holdFlow(
  pipe: NetworkPipe,
  { at, extra, held }: { at: number; extra: LinkLines; held: Map<number, string> },
): string {
  extra.junctions.push(`A${at} 0 0`, `B${at} 0 0`)
  extra.pumps.push(`H${at} N${pipe.from} A${at} HEAD STRONG`)
  extra.valves.push(`F${at} A${at} B${at} 100 FCV ${pipe.fixedFlowLPerMin ?? 0} 0`)
  held.set(at, `F${at}`)
  return `B${at}`
}

function curves({ pipes }: Network): string[] {
  const own = pipes.flatMap(({ pump }, at) => {
    if (pump === undefined) return []
    // One point of a curve of shut-off head 4/3 of it and no flow beyond twice it is the law H = a − b·q².
    const { shutOffHeadM, headDropMPerLPerMin2 } = pump
    const designHeadM = 0.75 * shutOffHeadM
    return [`C${at} ${Math.sqrt((shutOffHeadM - designHeadM) / headDropMPerLPerMin2)} ${designHeadM}`]
  })
  return [...own, 'STRONG 200 45']
}

/** What the engine takes for the decay of a constituent in the pipe whose loss to the air is that of the excess over it, per day. */
export function coolingPerDay(pipe: NetworkPipe, temperatureC: number): number {
  const areaM2 = (Math.PI / 4) * (pipe.boreMm / MM_PER_M) ** 2
  return (pipe.lossWPerMK * DAY_S) / (areaM2 * heatPerM3K(temperatureC))
}

/** J/(m³ K) */
export function heatPerM3K(temperatureC: number): number {
  return waterDensityKgPerM3(temperatureC) * waterHeatCapacityJPerKgK(temperatureC)
}
