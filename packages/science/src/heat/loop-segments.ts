import film from '@rillmark/reference/heat/film.json' with { type: 'json' }
import * as z from 'zod'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { ambientField, buildShape, type PipeBuild, refuseImpossiblePipe, wallField } from './pipe-build.ts'

type Optional<Whole> = { [Key in keyof Whole]?: Whole[Key] | undefined }

/** One pipe of a loop: by what it is made of, or by a loss coefficient known otherwise. */
export interface LoopSegment extends Optional<PipeBuild> {
  name?: string | undefined
  lengthM: number
  boreMm?: number | undefined
  lossWPerMK?: number | undefined
  flowLPerMin?: number | undefined
  ambientC?: number | undefined
  after?: string[] | undefined
}

/** What a segment is where nothing else is said. */
const BARE = { wallMm: 0, material: 'copper', insulationMm: 0, surfaceEmissivity: film.figures.emissivity.value }

/**
 * The pipe of a segment, with what is left out filled in as the schema does.
 *
 * @param segment given by its build
 * @throws RangeError when it has no outside diameter
 * @source surface-emissivities
 * @example
 * pipeOfSegment({ lengthM: 1, outsideDiameterMm: 22 }).material // => "copper"
 */
export function pipeOfSegment(segment: LoopSegment): PipeBuild {
  const { outsideDiameterMm, insulationConductivityWPerMK } = segment
  if (outsideDiameterMm === undefined) {
    throw new RangeError('Cannot tell what a segment loses because it has no outside diameter: got undefined')
  }
  return {
    outsideDiameterMm,
    insulationConductivityWPerMK,
    uprightHeightM: segment.uprightHeightM,
    wallMm: segment.boreMm === undefined ? (segment.wallMm ?? BARE.wallMm) : (outsideDiameterMm - segment.boreMm) / 2,
    material: segment.material ?? BARE.material,
    insulationMm: segment.insulationMm ?? BARE.insulationMm,
    surfaceEmissivity: segment.surfaceEmissivity ?? BARE.surfaceEmissivity,
  }
}

/**
 * The bore of a segment (mm), or nothing where neither it nor a wall is given.
 *
 * @param segment of a loop
 * @source none: it computes nothing of the trade
 * @example
 * boreOfSegment({ lengthM: 1, outsideDiameterMm: 22, wallMm: 1 }) // => 20
 */
export function boreOfSegment({ boreMm, outsideDiameterMm, wallMm }: LoopSegment): number | undefined {
  if (boreMm !== undefined || outsideDiameterMm === undefined || !wallMm) return boreMm
  return outsideDiameterMm - 2 * wallMm
}

const LONGEST_NAME = 80
const WIDEST_BORE_MM = 3000

/**
 * The fields of a segment of a loop.
 *
 * @source none: it computes nothing of the trade
 */
export const loopSegmentField = () => {
  const build = buildShape()
  return z
    .strictObject({
      name: field(z.string().min(1).max(LONGEST_NAME).optional(), {
        what: 'name of the segment; its place in the list where left out',
      }),
      lengthM: field(measure.amount(), { what: 'length of pipe', unit: 'm' }),
      ...build,
      outsideDiameterMm: build.outsideDiameterMm.optional().meta(build.outsideDiameterMm.meta() ?? {}),
      wallMm: wallField(),
      boreMm: field(z.number().min(0.5).max(WIDEST_BORE_MM).optional(), {
        what: 'inside diameter, instead of the wall; tells how the water moves',
        unit: 'mm',
      }),
      lossWPerMK: field(measure.positive().max(MOST_LOST).optional(), {
        what: 'loss coefficient where it is known; the build of the pipe then does not count',
        unit: 'W/(m K)',
      }),
      flowLPerMin: field(measure.positive().optional(), {
        what: 'flow in this segment, where it is not that of the loop',
        unit: 'L/min',
      }),
      ambientC: ambientField(0)
        .optional()
        .meta({ description: 'air around this segment, where it differs (°C)', unit: '°C' }),
      after: field(z.array(z.string()).optional(), {
        what: 'names of the segments whose water it takes; the one before it where left out',
      }),
    })
    .superRefine(({ outsideDiameterMm, ...pipe }, context) => {
      refuseImpossibleBore({ outsideDiameterMm, ...pipe }, context)
      if (outsideDiameterMm !== undefined) return refuseImpossiblePipe({ outsideDiameterMm, ...pipe }, context)
      if (pipe.lossWPerMK === undefined)
        context.addIssue(refuse(['outsideDiameterMm'], 'outsideDiameterMm, or lossWPerMK'))
    })
}

function refuseImpossibleBore(
  {
    boreMm,
    outsideDiameterMm,
    wallMm,
  }: { boreMm?: number | undefined; outsideDiameterMm?: number | undefined; wallMm: number },
  context: z.RefinementCtx,
): void {
  if (boreMm === undefined) return
  const received = String(boreMm)
  if (wallMm > 0) context.addIssue(refuse(['boreMm'], { expected: 'either boreMm or wallMm, not both', received }))
  if (outsideDiameterMm === undefined || boreMm < outsideDiameterMm) return
  context.addIssue(refuse(['boreMm'], { expected: `less than the outside diameter, ${outsideDiameterMm}`, received }))
}

/** Twice what the largest bare pipe loses. */
const MOST_LOST = 1000
/** Flows are written to a few digits. */
const SLACK = 1e-3

/**
 * The rules between the names of the segments of a loop: each once, only earlier ones named.
 *
 * @param segments as given
 * @param context of the schema
 * @source none: it computes nothing of the trade
 */
export function refuseImpossibleNames(segments: readonly LoopSegment[], context: z.RefinementCtx): void {
  const names = new Set<string>()
  for (const [at, { name = String(at + 1), after = [] }] of segments.entries()) {
    const unknown = after.filter((each) => !names.has(each))
    for (const each of unknown) {
      const known = [...names].join(', ')
      const expected = known === '' ? 'nothing before the first segment' : `names of earlier segments: ${known}`
      context.addIssue(refuse([at, 'after'], { expected, received: JSON.stringify(each) }))
    }
    if (new Set(after).size < after.length) context.addIssue(refuse([at, 'after'], 'each segment once'))
    if (names.has(name))
      context.addIssue(
        refuse([at, 'name'], { expected: 'a name no other segment has', received: JSON.stringify(name) }),
      )
    names.add(name)
  }
}

/** What each segment, by its name, still has to give to segments after it (L/min). */
export type Undrawn = Map<string, number>

/**
 * What the segments it follows bring to a segment (L/min): each of them, less what earlier branches drew from it.
 *
 * @param after names of the segments it follows
 * @param undrawn by name, before it draws
 * @source none: water is neither made nor lost at a joint
 * @example
 * flowOffered(['a', 'b'], new Map([['a', 2], ['b', 1]])) // => 3
 */
export function flowOffered(after: readonly string[], undrawn: Undrawn): number {
  return after.reduce((sum, name) => sum + (undrawn.get(name) ?? 0), 0)
}

/**
 * Takes the flow of a segment from those it follows, of each alike, and enters what it has to give itself.
 *
 * @param segment its name, flow (L/min) and the names of those it follows
 * @param undrawn by name; changed
 * @source none: water is neither made nor lost at a joint
 */
export function drawFlow(segment: { name: string; flowLPerMin: number; after: readonly string[] }, undrawn: Undrawn) {
  const { name, flowLPerMin, after } = segment
  const offered = flowOffered(after, undrawn)
  const kept = offered > flowLPerMin ? 1 - flowLPerMin / offered : 0
  for (const each of after) undrawn.set(each, kept * (undrawn.get(each) ?? 0))
  undrawn.set(name, flowLPerMin)
}

/**
 * No more water leaves a joint than comes to it: a segment carries at most what is left of those it follows.
 *
 * @param loop segments as given, and the flow of those that name none of their own (L/min)
 * @param context of the schema
 * @source none: water is neither made nor lost at a joint
 */
export function refuseImpossibleFlows(
  loop: { segments: readonly LoopSegment[]; flowLPerMin: number },
  context: z.RefinementCtx,
): void {
  const undrawn: Undrawn = new Map()
  for (const [at, { name = String(at + 1), after = [], flowLPerMin = loop.flowLPerMin }] of loop.segments.entries()) {
    const offered = flowOffered(after, undrawn)
    const known = after.length > 0 && after.every((each) => undrawn.has(each))
    if (known && flowLPerMin > offered + SLACK * loop.flowLPerMin) {
      const expected = `at most what comes in, ${Number(offered.toFixed(FLOW_DECIMALS))}`
      context.addIssue(refuse(['segments', at, 'flowLPerMin'], { expected, received: String(flowLPerMin) }))
    }
    drawFlow({ name, flowLPerMin, after }, undrawn)
  }
}

/** Sums and differences of flows carry no more. */
const FLOW_DECIMALS = 6
