import type { Layer, Mark } from '../drawing/layers.ts'
import type { SampleRow } from './sample-rows.ts'
import { valueShort, valueWords } from './value-words.ts'

/** Results on the riser diagram: one mark a place, telling of the sample that presses most, with all of them in its words. */
export function resultLayer(rows: readonly SampleRow[]): Layer {
  const byPlace = new Map<string, SampleRow[]>()
  for (const row of rows)
    if (row.component !== undefined && row.medium !== 'blank')
      byPlace.set(row.component, [...(byPlace.get(row.component) ?? []), row])
  return {
    name: 'Results',
    marks: [...byPlace].map(([component, samples]) => markOf(component, samples)),
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

function markOf(component: string, samples: readonly SampleRow[]): Mark {
  const outcome =
    (['positive', 'not interpretable', 'waiting', 'negative'] as const).find((each) =>
      samples.some((row) => row.outcome === each),
    ) ?? 'waiting'
  const pressing = samples.filter((row) => row.outcome === outcome)
  const place = samples[0]?.place ?? component
  const text = outcome === 'positive' ? countText(pressing) : undefined
  return {
    component,
    ...FORMS[outcome],
    size: text === undefined ? 'medium' : 'large',
    ...(text === undefined ? {} : { text }),
    label: `${place}: ${samples.map(sampleWords).join('; ')}`,
  }
}

/** The largest count of water as it was given; a swab shows no number. Different units are not compared: then no number is drawn. */
function countText(samples: readonly SampleRow[]): string | undefined {
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
  return valueShort(counts.reduce((most, value) => (size(value) > size(most) ? value : most)))
}

function sampleWords(row: SampleRow): string {
  const found = row.results.map(({ entry }) => valueWords(entry.body.value, entry.body.method))
  return `${row.kindWords}, ${found.length === 0 ? 'waiting for the laboratory' : found.join(', ')}`
}
