import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { instrumentRange, READING_QUANTITY_WORDS, readingAmount } from '../fieldwork/reading-words.ts'
import { visitKey } from '../fieldwork/state.ts'
import type { StopTitles } from '../fieldwork/stops.ts'

type FieldworkKind = Extract<
  Kind,
  | `instrument.${string}`
  | `stop.${string}`
  | `step.${string}`
  | 'sample.collected'
  | 'reading.taken'
  | 'deviation.recorded'
  | 'photo.taken'
>

/** The fieldwork kinds in one line each; a part of `entryWords`. */
export const fieldworkWords: { readonly [K in FieldworkKind]: (body: BodyOf<K>, titles?: StopTitles) => string } = {
  'instrument.registered': ({ code, kind, rangeMin, rangeMax, unit, calibrationDue }) =>
    joined(
      `${code}, ${kind}`,
      instrumentRange({ rangeMin, rangeMax, unit }),
      calibrationDue !== undefined && `calibration due ${calibrationDue}`,
    ),
  'stop.added': ({ round, stop, reason }) => `${round}, ${stop.title}: ${reason}`,
  'stop.started': atStop,
  'step.done': (body, titles) =>
    joined(`${atStop(body, titles)}: ${body.step}`, body.seconds !== undefined && `${body.seconds} s`, body.notes),
  'sample.collected': (body, titles) =>
    joined(
      `${body.label} at ${atStop(body, titles)}`,
      SAMPLE_KIND_WORDS[body.sampleKind],
      body.volumeMl !== undefined && `${body.volumeMl} mL`,
      body.filter !== 'none' && body.filter,
    ),
  'reading.taken': (body, titles) =>
    `${atStop(body, titles)}: ${READING_QUANTITY_WORDS[body.quantity]} ${readingAmount(body.reading)}`,
  'deviation.recorded': (body, titles) => joined(`${atStop(body, titles)}: ${body.reason}`, body.step, body.text),
  'photo.taken': (body, titles) => `${atStop(body, titles)}: ${body.shows}`,
  'stop.finished': (body, titles) => joined(`${atStop(body, titles)}: ${body.outcome}`, body.reason),
}

/** The stop by its title where it is known, else by its id. */
function atStop(at: { readonly round: string; readonly stop: string }, titles?: StopTitles): string {
  const title = titles?.get(visitKey(at))
  return title === undefined ? `${at.round} stop ${at.stop}` : `${at.round}, ${title}`
}

function joined(...given: readonly (string | false | undefined)[]): string {
  return given.filter((part) => part !== undefined && part !== false && part !== '').join(', ')
}
