import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { pipeShape, refuseUnknownBore } from './pipe-fields.ts'
import { pipeFlow, type Regime } from './pipe-flow.ts'
import { type PipeInput, pipeVolume } from './pipe-volume.ts'
import { viscosityRangeC } from './viscosity.ts'

export interface ClearingTimeInput {
  segments: PipeInput[]
  flowLPerMin: number
  turnovers: number
  temperatureC: number
}

export interface ClearedSegment {
  boreMm: number
  volumeL: number
  velocityMPerS: number
  regime: Regime
  laminarOldShare?: number
}

export interface ClearingTime {
  volumeL: number
  seconds: number
  reynolds: number[]
  segments: ClearedSegment[]
}

const SECONDS_PER_MINUTE = 60

/**
 * How long an outlet must run (seconds) to replace the water of the pipes that feed it, and how that water moves.
 * Wanted to reach the water that stands further in, and to know when the old is out.
 *
 * t = n · ΣV / Q; Re = v · d / ν; old share = 1 / (4 θ²), θ = n ΣV / V of the segment.
 *
 * Special cases: pipes of no length clear in 0 s. In laminar flow the core runs ahead and one turnover leaves old
 * water at the wall: the share of the water leaving such a segment that stood in it is given, without diffusion, all of it
 * until half the segment's content has passed. In turbulent flow the old water leaves as one, nearly.
 *
 * @param input segments in any order (bore or standard and size; length m), flow (L/min, above 0), turnovers, °C
 * @throws RangeError when a size isn't in the catalogue or the temperature is outside 0 to 100 °C
 * @source iapws-sr6-08
 * @source reynolds-textbook
 * @source poiseuille-displacement
 * @example
 * clearingTime({ segments: [{ boreMm: 20, lengthM: 10 }], flowLPerMin: 6, turnovers: 1, temperatureC: 20 }).seconds // => 31.41592653589793
 */
export function clearingTime({ segments, flowLPerMin, turnovers, temperatureC }: ClearingTimeInput): ClearingTime {
  const moving = segments.map((segment) => {
    const { boreMm, volumeL } = pipeVolume(segment)
    return { boreMm, volumeL, ...pipeFlow({ boreMm, flowLPerMin, temperatureC }) }
  })
  const volumeL = moving.reduce((sum, segment) => sum + segment.volumeL, 0)
  const passedL = turnovers * volumeL
  return {
    volumeL,
    seconds: (passedL * SECONDS_PER_MINUTE) / flowLPerMin,
    reynolds: moving.map(({ reynolds }) => reynolds),
    segments: moving.map(({ boreMm, volumeL: heldL, velocityMPerS, regime }) => ({
      boreMm,
      volumeL: heldL,
      velocityMPerS,
      regime,
      ...(regime === 'laminar' ? { laminarOldShare: oldShare(passedL, heldL) } : {}),
    })),
  }
}

function oldShare(passedL: number, heldL: number): number {
  return heldL === 0 ? 0 : Math.min(1, 1 / (4 * (passedL / heldL) ** 2))
}

const MOST_SEGMENTS = 10_000

const input = z.strictObject({
  segments: field(z.array(z.strictObject(pipeShape()).superRefine(refuseUnknownBore)).min(1).max(MOST_SEGMENTS), {
    what: 'the pipes the water comes through',
  }),
  flowLPerMin: field(measure.positive(), { what: 'flow at the outlet', unit: 'L/min' }),
  turnovers: field(measure.positive().default(1), { what: 'how many times the content is to be replaced' }),
  temperatureC: field(z.number().min(viscosityRangeC.lower).max(viscosityRangeC.upper).default(20), {
    what: 'temperature of the water, for the Reynolds number',
    unit: '°C',
  }),
})

export const clearingTimeCalculation = defineCalculation({
  id: 'clearing-time',
  title: 'Time to clear the pipes',
  purpose: 'How long to run an outlet until the water of the pipes that feed it has been replaced.',
  formula: {
    text: 't = n · ΣV · 60 / Q; Re = v · d / ν; laminar: old = 1 / (4·θ²), θ = n·ΣV/V',
    symbols: {
      t: 'seconds',
      n: 'turnovers',
      V: 'segments[].volumeL',
      Q: 'flowLPerMin',
      Re: 'reynolds',
      v: 'segments[].velocityMPerS',
      d: 'segments[].boreMm',
      ν: 'kinematic viscosity at temperatureC',
      old: 'segments[].laminarOldShare',
    },
  },
  input,
  output: z.object({
    volumeL: field(z.number(), { what: 'content of all segments', unit: 'L' }),
    seconds: field(z.number(), { what: 'running time', unit: 's' }),
    reynolds: field(z.array(z.number()), { what: 'Reynolds number of each segment, in the order given' }),
    segments: field(
      z.array(
        z.object({
          boreMm: field(z.number(), { what: 'inside diameter used', unit: 'mm' }),
          volumeL: field(z.number(), { what: 'content', unit: 'L' }),
          velocityMPerS: field(z.number(), { what: 'mean velocity', unit: 'm/s' }),
          regime: field(z.enum(['laminar', 'in-between', 'turbulent']), { what: 'how the water moves' }),
          laminarOldShare: field(z.number().optional(), {
            what: 'share, 0 to 1, of the water leaving the segment at the end that stood in it; left out where it is not laminar',
          }),
        }),
      ),
      { what: 'each segment, in the order given' },
    ),
  }),
  sources: sourcesOf('astm-b88', 'pex-sdr9', 'en-1057', 'iapws-sr6-08', 'reynolds-textbook', 'poiseuille-displacement'),
  cautions: [
    'In laminar flow the core runs ahead: one turnover leaves a quarter of old water, five turnovers 1 %. Take more turnovers, or more flow.',
    'Running an outlet makes aerosol, and hot water scalds: stand back, ventilate, keep others out.',
  ],
  example: {
    input: { segments: [{ boreMm: 20, lengthM: 10 }], flowLPerMin: 6, turnovers: 1, temperatureC: 20 },
    output: {
      volumeL: 3.141592653589793,
      seconds: 31.41592653589793,
      reynolds: [6344.836206405359],
      segments: [{ boreMm: 20, volumeL: 3.141592653589793, velocityMPerS: 0.3183098861837907, regime: 'turbulent' }],
    },
  },
  run: clearingTime,
})
