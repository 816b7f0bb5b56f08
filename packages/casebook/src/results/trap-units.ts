import traps from '@rillmark/reference/results/traps.json' with { type: 'json' }
import { type ConcentrationUnit, basisOf, convertConcentration, familyOf, withoutNoise } from '../units/quantity.ts'
import { limitCfuPerLOf, type ResultValue, unitOf } from '../units/result-value.ts'
import type { KnownSample } from './known-samples.ts'
import type { ReadResult, ReadRow } from './read-row.ts'
import { addReason, type Reason, type Reasons } from './reason.ts'
import type { ResultsState } from './state.ts'
import { columnsOf } from './trap-dates.ts'

const LARGEST_FACTOR = Math.max(...traps.unitSlip.factors.value)

/** Units that do not fit: other than the column's, a count smaller than one colony per litre, a limit a thousand times off. */
export function unitSlips(
  rows: readonly ReadRow[],
  { reasons, results, laboratory }: { reasons: Reasons; results: ResultsState; laboratory: string },
): void {
  const usual = usualLimits(rows, { results, laboratory })
  for (const column of columnsOf(rows)) {
    const read = rows.flatMap(({ row, results: all }) =>
      all.filter((result) => result.column === column).map((result) => ({ row, result })),
    )
    const common = commonUnit(read.map(({ result }) => result))
    for (const { row, result } of read)
      for (const reason of slipsOf(result, { common, usual: usual.get(result.method) }))
        addReason(reasons, { row, column, ...reason })
  }
}

function slipsOf(
  result: ReadResult,
  { common, usual }: { common: ConcentrationUnit | undefined; usual: number | undefined },
): Reason[] {
  if (result.reading.kind !== 'value') return []
  const { value } = result.reading
  return [differs(value, common), tooSmall(value), belowLimit(value, result.limit), farLimit(value, usual)].filter(
    (reason) => reason !== undefined,
  )
}

function differs(value: ResultValue, common: ConcentrationUnit | undefined): Reason | undefined {
  const unit = unitOf(value)
  if (unit === undefined || common === undefined || unit === common) return undefined
  return { trap: 'unit differs', blocks: true, words: `${unit}, where the other rows are in ${common}` }
}

function tooSmall(value: ResultValue): Reason | undefined {
  if (value.kind !== 'count' && value.kind !== 'below') return undefined
  const amount = value.kind === 'count' ? value.value : value.limit
  if (basisOf(value.unit) === 'swab' || familyOf(value.unit) === 'GU') return undefined
  const perL = convertConcentration({ value: amount, unit: value.unit }, `${familyOf(value.unit)}/L`)
  if (perL.kind !== 'converted' || perL.value >= traps.unitSlip.smallestCountPerL.value) return undefined
  const unit: ConcentrationUnit = `${familyOf(value.unit) as 'CFU' | 'MPN'}/mL`
  const words = `${amount} ${value.unit} is less than one in a whole litre: the unit may be ${unit}`
  return {
    trap: 'factor of 1000',
    blocks: true,
    words,
    suggestion: value.kind === 'count' ? { ...value, unit } : { ...value, unit },
  }
}

function belowLimit(value: ResultValue, limit: number | undefined): Reason | undefined {
  if (value.kind !== 'count' || limit === undefined || value.value >= limit || withoutNoise(limit / 2) === value.value)
    return undefined
  return {
    trap: 'below its limit',
    blocks: true,
    words: `${value.value} is less than the limit of ${limit} in the same unit: one of them may be in another unit`,
  }
}

function farLimit(value: ResultValue, usual: number | undefined): Reason | undefined {
  const limit = limitCfuPerLOf(value)
  if (limit === undefined || usual === undefined || value.kind === 'above') return undefined
  const ratio = withoutNoise(Math.max(limit / usual, usual / limit))
  if (ratio !== LARGEST_FACTOR) return undefined
  return {
    trap: 'factor of 1000',
    blocks: true,
    words: `the limit is ${limit} CFU/L; this laboratory's usual limit by this method is ${usual} CFU/L, a factor of ${LARGEST_FACTOR}`,
  }
}

/** The unit of most rows of a column, where there is a clear one. */
function commonUnit(results: readonly ReadResult[]): ConcentrationUnit | undefined {
  const times = new Map<ConcentrationUnit, number>()
  for (const { reading } of results) {
    const unit = reading.kind === 'value' ? unitOf(reading.value) : undefined
    if (unit !== undefined) times.set(unit, (times.get(unit) ?? 0) + 1)
  }
  return mostOften(times)
}

/** The limit, in CFU/L, this laboratory states most often by each method: in its earlier files, else in this one. */
function usualLimits(
  rows: readonly ReadRow[],
  { results, laboratory }: { results: ResultsState; laboratory: string },
): Map<string, number> {
  const earlier = results.results
    .filter(({ body }) => body.laboratory === laboratory)
    .map(({ body }) => ({ method: body.method, limit: limitCfuPerLOf(body.value) }))
  const here = rows.flatMap(({ results: all }) =>
    all.map(({ method, reading }) => ({
      method,
      limit: reading.kind === 'value' ? limitCfuPerLOf(reading.value) : undefined,
    })),
  )
  const usual = new Map<string, number>()
  for (const from of [here, earlier]) {
    const times = new Map<string, Map<number, number>>()
    for (const { method, limit } of from) {
      if (limit === undefined) continue
      const counted = times.get(method) ?? new Map<number, number>()
      counted.set(limit, (counted.get(limit) ?? 0) + 1)
      times.set(method, counted)
    }
    for (const [method, counted] of times) {
      const most = mostOften(counted)
      if (most !== undefined) usual.set(method, most)
    }
  }
  return usual
}

/** What stands more often than everything else together. */
function mostOften<T>(times: ReadonlyMap<T, number>): T | undefined {
  const total = [...times.values()].reduce((sum, each) => sum + each, 0)
  return [...times].find(([, each]) => each > total / 2)?.[0]
}

/** A unit per swab on a water sample cannot be right; a unit per volume on a swab is no concentration in the building's water. */
export function swabOrWater(value: ResultValue, sample: KnownSample): Reason | undefined {
  const unit = unitOf(value)
  if (unit === undefined || sample.sampleKind === undefined) return undefined
  const [swabUnit, swabSample] = [basisOf(unit) === 'swab', sample.sampleKind === 'first-flush-swab']
  if (swabUnit === swabSample) return undefined
  return swabSample
    ? {
        trap: 'swab or water',
        blocks: false,
        words: `${unit} of a swab with its few millilitres: kept as written, never compared with water`,
      }
    : { trap: 'swab or water', blocks: true, words: `${unit} for a sample of water` }
}
