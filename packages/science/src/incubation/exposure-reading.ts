import published from '@rillmark/reference/incubation/models.json' with { type: 'json' }
import { minutesOfOffset, offsetOf, type ReadMoment, readDayOrMoment } from '../calendar/day-or-moment.ts'
import type { IncubationModel } from './incubation-model.ts'
import type { OnsetCase, Source } from './possible-times.ts'

interface Written {
  onsets: readonly {
    from: string
    to?: string | undefined
    present: readonly { from: string; to: string }[]
  }[]
  model?: string | undefined
  models: readonly IncubationModel[]
  durationDays: number
  between?: { from?: string | undefined; to?: string | undefined } | undefined
  utcOffset?: string | undefined
}

/**
 * The models asked for, each once.
 *
 * @param input of `exposure-time`
 * @source none: it computes nothing of the trade
 * @example
 * modelsOf({ onsets: [], models: [], durationDays: 0 })[0].id // => "gamma-a"
 */
export function modelsOf({ model, models }: Written): IncubationModel[] {
  const first = model ?? (models.length === 0 ? published.usual : undefined)
  const all: IncubationModel[] = [
    ...(first === undefined ? [] : [{ family: 'published' as const, id: first }]),
    ...models,
  ]
  return [...new Map(all.map((one) => [JSON.stringify(one), one])).values()]
}

/**
 * Minutes of local time east of Greenwich: as said, else that of the first moment that has one, else unknown.
 *
 * @param input of `exposure-time`
 * @source none: it computes nothing of the trade
 */
export function localOffset(input: Written): number | undefined {
  if (input.utcOffset !== undefined) return minutesOfOffset(input.utcOffset)
  return writtenTimes(input)
    .map(offsetOf)
    .find((offset) => offset !== undefined)
}

/**
 * Every day and moment that is written in the input.
 *
 * @param input of `exposure-time`
 * @source none: it computes nothing of the trade
 * @example
 * writtenTimes({ onsets: [{ from: '2026-03-10', present: [] }] }) // => ["2026-03-10"]
 */
export function writtenTimes({ onsets, between }: Pick<Written, 'onsets' | 'between'>): string[] {
  const stretches = [
    ...onsets.flatMap((onset) => [onset, ...onset.present]),
    ...(between === undefined ? [] : [between]),
  ]
  return stretches.flatMap(({ from, to }) => [from, to]).filter((text) => text !== undefined)
}

/**
 * The cases on a scale of days that starts at the midnight before the earliest onset, so that no digits are lost to the calendar.
 *
 * @param input of `exposure-time`
 * @throws RangeError when a day or moment does not exist
 * @source none: it computes nothing of the trade
 */
export function casesOf(input: Written): { cases: OnsetCase[]; origin: number } {
  const read = readerOf(input)
  const spans = input.onsets.map(({ from, to }) => ({ from: read(from).from, to: read(to ?? from).to }))
  const origin = Math.floor(spans.reduce((least, { from }) => Math.min(least, from), Number.POSITIVE_INFINITY))
  const shift = ({ from, to }: ReadMoment): ReadMoment => ({ from: from - origin, to: to - origin })
  const cases = spans.map((onset, index) => ({
    onset: shift(onset),
    present: (input.onsets[index]?.present ?? []).map(({ from, to }) =>
      shift({ from: read(from).from, to: read(to).to }),
    ),
  }))
  return { cases, origin }
}

/** In days; a source that works no longer is a moment. */
const A_SECOND = 1 / 86_400

/**
 * The source on the same scale.
 *
 * @param input of `exposure-time`
 * @throws RangeError when a day or moment does not exist
 * @source none: it computes nothing of the trade
 */
export function sourceOf(input: Written): Source {
  const read = readerOf(input)
  const { origin } = casesOf({ ...input, onsets: input.onsets.map((each) => ({ ...each, present: [] })) })
  const { from, to } = input.between ?? {}
  return {
    durationDays: input.durationDays < A_SECOND ? 0 : input.durationDays,
    between: {
      from: from === undefined ? Number.NEGATIVE_INFINITY : read(from).from - origin,
      to: to === undefined ? Number.POSITIVE_INFINITY : read(to).to - origin,
    },
  }
}

function readerOf(input: Written): (text: string) => ReadMoment {
  const offset = localOffset(input) ?? 0
  return (text) => {
    const read = readDayOrMoment(text, offset)
    if (read === undefined)
      throw new RangeError(
        `Cannot read a day or moment because it must be written 2026-03-31 or 2026-03-31T14:00: got ${text}`,
      )
    return read
  }
}
