import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import { compileTypst } from '../typst/compile.ts'
import { dataMatrixSvg } from './data-matrix.ts'
import { placeWords, type RoundPapers } from './round-documents.ts'

/** The printable label sheet of a round: three by eight on a page, in walking order, with cut marks. */
export function labelsPdf(papers: RoundPapers): Uint8Array {
  const labels = papers.plan.stops.flatMap((stop, at) =>
    stop.samples.flatMap(({ label, sampleKind, circuit, repeats }) => {
      if (label === undefined) return []
      const kind = SAMPLE_KIND_WORDS[sampleKind]
      return [
        {
          label,
          stop: at + 1,
          svg: dataMatrixSvg(label),
          kind: repeats === undefined ? kind : `${kind} of ${repeats}`,
          side: circuit === undefined || kind.includes(circuit) ? '' : circuit.replace('-', ' '),
          title: stop.title,
          place: placeWords({ floor: stop.floor, riser: stop.riser }, papers.floors),
        },
      ]
    }),
  )
  const { title, round, paper, asOf } = papers
  return compileTypst({ template: 'labels.typ', data: { title, round, paper, labels }, asOf })
}
