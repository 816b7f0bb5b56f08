import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { type PipeFlow, pipeFlow } from '../pipes/pipe-flow.ts'
import {
  liquidWaterRangeC,
  meanHeatCapacityJPerKgK,
  waterDensityKgPerM3,
  waterHeatCapacityJPerKgK,
} from '../water/liquid-water.ts'
import { temperatureAfter } from './approach.ts'
import {
  boreOfSegment,
  drawFlow,
  flowOffered,
  type LoopSegment,
  loopSegmentField,
  pipeOfSegment,
  refuseImpossibleFlows,
  refuseImpossibleNames,
  type Undrawn,
} from './loop-segments.ts'
import { ambientField } from './pipe-build.ts'
import { pipeHeatLoss } from './pipe-heat-loss.ts'

export interface LoopTemperatureInput {
  segments: LoopSegment[]
  flowLPerMin: number
  startC: number
  ambientC: number
}

export interface LoopPart extends Partial<PipeFlow> {
  name: string
  flowLPerMin: number
  inletC: number
  endC: number
  heatW: number
}

export interface LoopTemperature {
  segmentEndC: number[]
  returnC: number
  dropK: number
  coldestC: number
  coldestSegment: string
  heatW: number
  segments: LoopPart[]
}

/** m³/s in a L/min. */
const M3_PER_S = 1 / 60_000

/**
 * The temperature at the end of each segment of a hot-water loop and of the water that comes back (°C).
 * Wanted to find where a loop falls too low, and whether flow or insulation would mend it.
 *
 * ṁ cp dT/dx = −U(T) (T − Tₐ) along each segment; where several come together, Σ Q T / Σ Q over them, Q what
 * earlier branches left of each.
 *
 * Special cases: a segment of no length changes nothing. Flow so slow that the water takes the air's temperature ends
 * at just that. Without `after` a segment follows the one before it; without a flow of its own it carries the loop's.
 * The water comes back at the end of the last segment. Where a bore or wall is given, how the water moves is told.
 *
 * @param input segments in the order water passes them, flow (L/min, above 0), start 0 to 100 °C, air 0 to 80 °C
 * @throws RangeError when a segment comes after one that isn't before it
 * @source plug-flow-heat-balance
 * @source churchill-chu-1975
 * @source iapws-sr6-08
 * @example
 * loopTemperature({ segments: [{ lengthM: 0, lossWPerMK: 0.2 }], flowLPerMin: 4, startC: 60, ambientC: 25 }).returnC // => 60
 */
export function loopTemperature(input: LoopTemperatureInput): LoopTemperature {
  const densityKgPerM3 = waterDensityKgPerM3(input.startC)
  const done: LoopPart[] = []
  const byName = new Map<string, LoopPart>()
  const undrawn: Undrawn = new Map()
  for (const [at, segment] of input.segments.entries()) {
    const inletC = inletOf(segment, { done, byName, undrawn, startC: input.startC })
    const flowLPerMin = segment.flowLPerMin ?? input.flowLPerMin
    const massKgPerS = flowLPerMin * M3_PER_S * densityKgPerM3
    const endC = endOf(segment, { inletC, massKgPerS, ambientC: segment.ambientC ?? input.ambientC })
    const heatW = massKgPerS * meanHeatCapacityJPerKgK({ fromC: inletC, toC: endC }) * (inletC - endC)
    const name = segment.name ?? String(at + 1)
    const part = { name, flowLPerMin, inletC, endC, heatW, ...movement(segment, { flowLPerMin, temperatureC: inletC }) }
    done.push(part)
    byName.set(part.name, part)
    drawFlow({ name, flowLPerMin, after: segment.after ?? [] }, undrawn)
  }
  return summary(done, input.startC)
}

function movement(segment: LoopSegment, water: { flowLPerMin: number; temperatureC: number }): Partial<PipeFlow> {
  const boreMm = boreOfSegment(segment)
  return boreMm === undefined ? {} : pipeFlow({ boreMm, ...water })
}

function inletOf(
  { after }: LoopSegment,
  {
    done,
    byName,
    undrawn,
    startC,
  }: { done: LoopPart[]; byName: Map<string, LoopPart>; undrawn: Undrawn; startC: number },
): number {
  if (after === undefined || after.length === 0) return done.at(-1)?.endC ?? startC
  const joined = after.map((name) => {
    const part = byName.get(name)
    if (part === undefined)
      throw new RangeError(`Cannot follow a loop because a segment comes after none before it: got ${name}`)
    return part
  })
  const offered = flowOffered(after, undrawn)
  const share = (part: LoopPart) => (offered > 0 ? (undrawn.get(part.name) ?? 0) / offered : 1 / joined.length)
  return joined.reduce((sum, part) => sum + share(part) * part.endC, 0)
}

function endOf(
  segment: LoopSegment,
  { inletC, massKgPerS, ambientC }: { inletC: number; massKgPerS: number; ambientC: number },
): number {
  const loss = lossOf(segment, ambientC)
  const rate = (waterC: number) => loss(waterC) / (massKgPerS * waterHeatCapacityJPerKgK(waterC))
  return temperatureAfter({ startC: inletC, ambientC, rate }, segment.lengthM)
}

function lossOf(segment: LoopSegment, ambientC: number): (waterC: number) => number {
  const { lossWPerMK } = segment
  if (lossWPerMK !== undefined) return () => lossWPerMK
  const pipe = pipeOfSegment(segment)
  return (waterC) => pipeHeatLoss({ ...pipe, waterC, ambientC }).overallWPerMK
}

function summary(parts: LoopPart[], startC: number): LoopTemperature {
  const returnC = parts.at(-1)?.endC ?? startC
  const coldest = parts.reduce<LoopPart | undefined>(
    (low, part) => (low && low.endC <= part.endC ? low : part),
    undefined,
  )
  return {
    segmentEndC: parts.map(({ endC }) => endC),
    returnC,
    dropK: startC - returnC,
    coldestC: coldest?.endC ?? startC,
    coldestSegment: coldest?.name ?? '',
    heatW: parts.reduce((sum, { heatW }) => sum + heatW, 0),
    segments: parts,
  }
}

const MOST_SEGMENTS = 2000

export const loopTemperatureCalculation = defineCalculation({
  id: 'loop-temperature',
  title: 'Temperatures around a hot-water loop',
  purpose: 'How far the water of a flow-and-return loop cools in each segment, and how warm it comes back.',
  formula: {
    text: 'm · cp · dT/dx = −U · (T − Ta); joined: T = Σ(Q·T) / ΣQ; drop = T0 − Treturn',
    symbols: {
      T0: 'startC',
      Ta: 'ambientC',
      Treturn: 'returnC',
      drop: 'dropK',
      Q: 'segments[].flowLPerMin',
      m: 'mass flow (kg/s), from the flow and the density at the start',
      U: 'segments[].lossWPerMK',
      x: 'segments[].lengthM',
    },
  },
  input: z
    .strictObject({
      segments: field(z.array(loopSegmentField()).min(1).max(MOST_SEGMENTS), {
        what: 'the pipes of the loop, in the order the water passes them',
      }).superRefine(refuseImpossibleNames),
      flowLPerMin: field(measure.positive(), { what: 'flow of the loop', unit: 'L/min' }),
      startC: field(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper), {
        what: 'temperature of the water leaving the heater',
        unit: '°C',
      }),
      ambientC: ambientField(0),
    })
    .superRefine(refuseImpossibleFlows),
  output: z.object({
    segmentEndC: field(z.array(z.number()), {
      what: 'temperature at the end of each segment, in the order given',
      unit: '°C',
    }),
    returnC: field(z.number(), {
      what: 'temperature of the water that comes back, at the end of the last segment',
      unit: '°C',
    }),
    dropK: field(z.number(), { what: 'from the start to the return', unit: 'K' }),
    coldestC: field(z.number(), { what: 'lowest temperature at the end of any segment', unit: '°C' }),
    coldestSegment: field(z.string(), { what: 'the segment that ends coldest' }),
    heatW: field(z.number(), { what: 'heat lost by all segments', unit: 'W' }),
    segments: field(
      z.array(
        z.object({
          name: field(z.string(), { what: 'name, or its place in the list' }),
          flowLPerMin: field(z.number(), { what: 'flow', unit: 'L/min' }),
          inletC: field(z.number(), { what: 'temperature where it begins', unit: '°C' }),
          endC: field(z.number(), { what: 'temperature where it ends', unit: '°C' }),
          heatW: field(z.number(), { what: 'heat lost', unit: 'W' }),
          velocityMPerS: field(z.number().optional(), { what: 'mean velocity; left out without a bore', unit: 'm/s' }),
          reynolds: field(z.number().optional(), { what: 'Reynolds number; left out without a bore' }),
          regime: field(z.enum(['laminar', 'in-between', 'turbulent']).optional(), {
            what: 'how the water moves; left out without a bore',
          }),
        }),
      ),
      { what: 'each segment, in the order given' },
    ),
  }),
  sources: sourcesOf(
    'plug-flow-heat-balance',
    'churchill-chu-1975',
    'popiel-2007',
    'en-iso-12241',
    'iapws-sr6-08',
    'us-standard-atmosphere-1976',
    'en-12524',
    'plastic-pipe-properties',
    'surface-emissivities',
    'reynolds-textbook',
  ),
  cautions: [
    'A good return temperature can hide a cold riser: the return is the mean of all that come together. Read the coldest segment, and measure there.',
    'Valves, supports and gaps in the insulation lose more than clean pipe. Flows are as given: measure or balance them.',
    'Hotter water scalds. Raising a heater or rebalancing a loop is for a licensed trade, by the local code.',
  ],
  example: {
    input: {
      segments: [
        {
          name: 'flow',
          lengthM: 60,
          boreMm: 25,
          outsideDiameterMm: 28,
          insulationMm: 20,
          insulationConductivityWPerMK: 0.035,
        },
        {
          name: 'return',
          lengthM: 60,
          boreMm: 13,
          outsideDiameterMm: 15,
          insulationMm: 13,
          insulationConductivityWPerMK: 0.04,
        },
      ],
      flowLPerMin: 4,
      startC: 60,
      ambientC: 22,
    },
    output: {
      segmentEndC: [58.227496709795616, 56.62381302263127],
      returnC: 56.62381302263127,
      dropK: 3.3761869773687323,
      coldestC: 56.62381302263127,
      coldestSegment: 'return',
      heatW: 925.9437290276785,
      segments: [
        {
          name: 'flow',
          flowLPerMin: 4,
          inletC: 60,
          endC: 58.227496709795616,
          heatW: 486.16102904482364,
          velocityMPerS: 0.13581221810508404,
          reynolds: 7163.018765036095,
          regime: 'turbulent',
        },
        {
          name: 'return',
          flowLPerMin: 4,
          inletC: 58.227496709795616,
          endC: 56.62381302263127,
          heatW: 439.7826999828549,
          velocityMPerS: 0.5022641202111096,
          reynolds: 13419.757501267944,
          regime: 'turbulent',
        },
      ],
    },
  },
  run: loopTemperature,
})
