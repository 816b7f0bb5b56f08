import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import { CONFIDENCE_LEVEL } from './confidence.ts'
import type { SampleRow } from './sample-rows.ts'
import { TEMPERATURE_BANDS, temperatureBandAt, temperatureBandWords } from './temperature-band.ts'
import type { DisplayUnits } from '../units/display-units.ts'

export const GROUPINGS = {
  riser: 'riser',
  floor: 'floor',
  circuit: 'circuit',
  sampleKind: 'sample kind',
  temperature: 'temperature band',
  draw: 'first draw or flushed',
  zone: 'zone',
  group: 'group',
  round: 'round',
} as const
export type Grouping = keyof typeof GROUPINGS

export interface PositivityGroup {
  readonly key: string
  readonly words: string
  readonly medium: 'water' | 'swab'
  readonly positive: number
  /** samples with a result that says anything; the others are counted beside it, never in it */
  readonly total: number
  readonly notInterpretable: number
  readonly waiting: number
  /** samples whose value looks like half of a detection limit, counted as negative */
  readonly halfLimit: number
  /** samples taken after a treatment or through a filter, which speak of the treated state only */
  readonly afterTreatment: number
  readonly estimate: number | undefined
  readonly interval: { readonly lower: number; readonly upper: number } | undefined
  readonly labels: readonly string[]
}

/**
 * Positive samples of all that can be read, by group, with the interval of the share (Wilson, 95 %). Swabs and water are never put
 * together; blanks belong to no group; a duplicate repeats a point and does not count twice.
 */
export function positivity(rows: readonly SampleRow[], by: Grouping): PositivityGroup[] {
  const groups = new Map<string, { key: Key; medium: 'water' | 'swab'; rows: SampleRow[] }>()
  for (const row of rows) {
    const { medium } = row
    const key = keyOf(row, by)
    if (medium === 'blank' || key === undefined || (row.sampleKind === 'duplicate' && by !== 'sampleKind')) continue
    const id = `${medium} ${key.id}`
    const group = groups.get(id) ?? { key, medium, rows: [] }
    group.rows.push(row)
    groups.set(id, group)
  }
  return [...groups.values()]
    .sort((a, b) => compareKeys(a.key, b.key) || (a.medium < b.medium ? 1 : -1))
    .map(({ key, medium, rows: members }) => counted({ key, medium, rows: members }))
}

interface Key {
  readonly id: string
  readonly words: string
  readonly order: number
}

function counted({
  key,
  medium,
  rows,
}: {
  key: Key
  medium: 'water' | 'swab'
  rows: readonly SampleRow[]
}): PositivityGroup {
  const count = (outcome: SampleRow['outcome']) => rows.filter((row) => row.outcome === outcome).length
  const positive = count('positive')
  const total = positive + count('negative')
  const share = total === 0 ? undefined : proportion({ positive, total, method: 'wilson', level: CONFIDENCE_LEVEL })
  return {
    key: key.id,
    words: key.words,
    medium,
    positive,
    total,
    notInterpretable: count('not interpretable'),
    waiting: count('waiting'),
    halfLimit: rows.filter(
      (row) => row.outcome === 'negative' && row.results.some(({ entry }) => entry.body.halfLimitSuspected === true),
    ).length,
    afterTreatment: rows.filter((row) => row.sinceTreatment !== undefined || row.afterFilter).length,
    estimate: share?.estimate,
    interval: share?.interval,
    labels: rows.map(({ label }) => label),
  }
}

function keyOf(row: SampleRow, by: Grouping): Key | undefined {
  switch (by) {
    case 'floor':
      return row.floor === undefined
        ? undefined
        : { id: String(row.floor), words: row.floorName ?? `floor ${row.floor}`, order: -row.floor }
    case 'temperature':
      return temperatureKey(row.temperatureC)
    case 'sampleKind':
      return row.sampleKind === undefined
        ? undefined
        : { id: row.sampleKind, words: SAMPLE_KIND_WORDS[row.sampleKind], order: 0 }
    case 'riser':
      return named(row.riser, 'riser ')
    case 'round':
      return named(row.round, '')
    default:
      return named(row[by], '')
  }
}

function named(id: string | undefined, before: string): Key | undefined {
  return id === undefined ? undefined : { id, words: `${before}${id}`, order: 0 }
}

function temperatureKey(temperatureC: number | undefined): Key | undefined {
  if (temperatureC === undefined) return { id: 'none', words: 'no temperature', order: TEMPERATURE_BANDS.length }
  const index = temperatureBandAt(temperatureC)
  const band = TEMPERATURE_BANDS[index]
  return band === undefined ? undefined : { id: band.id, words: temperatureBandWords(band), order: index }
}

/** What a group is called, in the reader's units: only bands of temperature depend on them. */
export function groupWords({ key, words }: PositivityGroup, units: DisplayUnits): string {
  const band = TEMPERATURE_BANDS.find(({ id }) => id === key)
  return band === undefined ? words : temperatureBandWords(band, units)
}

function compareKeys(a: Key, b: Key): number {
  return a.order - b.order || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)
}

/** "5 of 6 (44–97 %)": the counts first, because they are what was seen. */
export function positivityWords({
  positive,
  total,
  interval,
}: Pick<PositivityGroup, 'positive' | 'total' | 'interval'>): string {
  if (interval === undefined) return 'no readable result'
  return `${positive} of ${total} (${Math.round(interval.lower * 100)}–${Math.round(interval.upper * 100)} %)`
}
