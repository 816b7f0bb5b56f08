import type { Fact } from '@rillmark/casebook/findings/headline.ts'
import { isolateComparisons } from '@rillmark/casebook/findings/isolate-ladder.ts'
import { readingWords } from '@rillmark/casebook/findings/reading-layer.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import { resultWords } from '@rillmark/casebook/units/result-words.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/** Something of the record a conclusion can stand on. */
export interface EvidenceOffer {
  readonly id: string
  readonly ref: string
  readonly words: string
}

/** Everything that can be attached, in the units of the record, where it will stand: facts counted above, single results, readings, isolate comparisons, cases' exposures. */
export function evidenceOffers(
  state: InvestigationState,
  { rows, facts }: { rows: readonly SampleRow[]; facts: readonly Fact[] },
): EvidenceOffer[] {
  const offers: Omit<EvidenceOffer, 'id'>[] = [
    ...facts.flatMap(({ words, labels }) => (labels[0] === undefined ? [] : [{ ref: labels[0], words }])),
    ...rows.flatMap((row) =>
      row.results.map(({ entry }) => ({
        ref: entry.id,
        words: `${row.place}, ${row.kindWords}: ${resultWords(entry.body.value, { method: entry.body.method })} (${row.label})`,
      })),
    ),
    ...rows.flatMap((row) =>
      row.readings.map((reading) => ({ ref: reading.id, words: `${row.place}: ${readingWords(reading)}` })),
    ),
    ...isolateComparisons(state).map(({ caseIsolate, sampleIsolate, sentence }) => ({
      ref: sampleIsolate.body.code,
      words: `${caseIsolate.body.code} and ${sampleIsolate.body.code}: ${sentence}`,
    })),
    ...state.cases.exposures.map(({ id, body }) => ({
      ref: id,
      words: `${body.caseCode} at ${body.place}, ${body.kind}, ${body.from} to ${body.to}`,
    })),
  ]
  const seen = new Set<string>()
  return offers.flatMap(({ ref, words }) => {
    const id = `${ref} ${words}`
    if (seen.has(id)) return []
    seen.add(id)
    return [{ id, ref, words: words.slice(0, 300) }]
  })
}
