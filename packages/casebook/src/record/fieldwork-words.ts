import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import type { ReadingQuantity } from '../fieldwork/kinds.ts'
import { instrumentRange, readingAmount } from '../fieldwork/reading-words.ts'

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

const QUANTITY_WORDS: Readonly<Record<ReadingQuantity, string>> = {
  'hot-temperature': 'hot temperature',
  'cold-temperature': 'cold temperature',
  ph: 'pH',
  'free-chlorine': 'free chlorine',
  'total-chlorine': 'total chlorine',
}

/** The fieldwork kinds in one line each; a part of `entryWords`. */
export const fieldworkWords: { readonly [K in FieldworkKind]: (body: BodyOf<K>) => string } = {
  'instrument.registered': ({ code, kind, rangeMin, rangeMax, unit, calibrationDue }) =>
    joined(
      `${code}, ${kind}`,
      instrumentRange({ rangeMin, rangeMax, unit }),
      calibrationDue !== undefined && `calibration due ${calibrationDue}`,
    ),
  'stop.added': ({ round, stop, reason }) => `${round}, ${stop.title}: ${reason}`,
  'stop.started': atStop,
  'step.done': (body) =>
    joined(`${atStop(body)}: ${body.step}`, body.seconds !== undefined && `${body.seconds} s`, body.notes),
  'sample.collected': (body) =>
    joined(
      `${body.label} at ${atStop(body)}`,
      SAMPLE_KIND_WORDS[body.sampleKind],
      body.volumeMl !== undefined && `${body.volumeMl} mL`,
      body.filter !== 'none' && body.filter,
    ),
  'reading.taken': (body) => `${atStop(body)}: ${QUANTITY_WORDS[body.quantity]} ${readingAmount(body.reading)}`,
  'deviation.recorded': (body) => joined(`${atStop(body)}: ${body.reason}`, body.step, body.text),
  'photo.taken': (body) => `${atStop(body)}: ${body.shows}`,
  'stop.finished': (body) => joined(`${atStop(body)}: ${body.outcome}`, body.reason),
}

function atStop({ round, stop }: { readonly round: string; readonly stop: string }): string {
  return `${round} stop ${stop}`
}

function joined(...given: readonly (string | false | undefined)[]): string {
  return given.filter((part) => part !== undefined && part !== false && part !== '').join(', ')
}
