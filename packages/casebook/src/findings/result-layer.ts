import type { Layer, Mark } from '../drawing/layers.ts'
import type { SampleRow } from './sample-rows.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { resultShort, resultWords } from '../units/result-words.ts'

/** Results on the riser diagram: one mark a place, telling of the sample that presses most, with all of them in its words. */
export function resultLayer(rows: readonly SampleRow[], units: DisplayUnits = METRIC_UNITS): Layer {
  const byPlace = new Map<string, SampleRow[]>()
  for (const row of rows)
    if (row.component !== undefined && row.medium !== 'blank')
      byPlace.set(row.component, [...(byPlace.get(row.component) ?? []), row])
  return {
    name: 'Results',
    marks: [...byPlace].map(([component, samples]) => markOf(component, { samples, units })),
    legend: [
      { form: 'disc', tone: 'bad', text: 'detected, count beside it' },
      { form: 'ring', tone: 'plain', text: 'not detected in the volume examined' },
      { form: 'dashed-ring', tone: 'muted', text: 'waiting' },
      { form: 'cross', tone: 'warn', text: 'not interpretable' },
    ],
    pressing: ['bad', 'warn', 'muted', 'plain'],
  }
}

const FORMS = {
  positive: { form: 'disc', tone: 'bad' },
  'not interpretable': { form: 'cross', tone: 'warn' },
  waiting: { form: 'dashed-ring', tone: 'muted' },
  negative: { form: 'ring', tone: 'plain' },
} as const

function markOf(component: string, { samples, units }: { samples: readonly SampleRow[]; units: DisplayUnits }): Mark {
  const outcome =
    (['positive', 'not interpretable', 'waiting', 'negative'] as const).find((each) =>
      samples.some((row) => row.outcome === each),
    ) ?? 'waiting'
  const pressing = samples.filter((row) => row.outcome === outcome)
  const place = samples[0]?.place ?? component
  const text = outcome === 'positive' ? countText(pressing, units) : undefined
  return {
    component,
    ...FORMS[outcome],
    size: text === undefined ? 'medium' : 'large',
    ...(text === undefined ? {} : { text }),
    label: `${place}: ${samples.map((row) => sampleWords(row, units)).join('; ')}`,
  }
}

/** The largest count of water, in the reader's unit; a swab shows no number. Different units are not compared: then no number is drawn. */
function countText(samples: readonly SampleRow[], units: DisplayUnits): string | undefined {
  const counts = samples
    .filter(({ medium }) => medium === 'water')
    .flatMap(({ results }) => results)
    .flatMap(({ entry, outcome }) =>
      outcome === 'positive' &&
      entry.body.method !== 'PCR' &&
      (entry.body.value.kind === 'count' || entry.body.value.kind === 'above')
        ? [entry.body.value]
        : [],
    )
  const [first] = counts
  if (first === undefined || counts.some(({ unit }) => unit !== first.unit)) return undefined
  const size = (value: (typeof counts)[number]) => (value.kind === 'count' ? value.value : value.limit)
  return resultShort(
    counts.reduce((most, value) => (size(value) > size(most) ? value : most)),
    units,
  )
}

function sampleWords(row: SampleRow, units: DisplayUnits): string {
  const found = row.results.map(({ entry, part }) => {
    const words = resultWords(entry.body.value, { method: entry.body.method, units })
    return part === undefined ? words : `${words} on the part ${part.label}`
  })
  return `${row.kindWords}, ${found.length === 0 ? 'waiting for the laboratory' : found.join(', ')}`
}
