import type { AcceptedFit } from './accepted-fit.ts'
import type { Calibration, Ranged } from './calibration.ts'

interface TakenOver {
  readonly found: Calibration
  /** the entry that last shaped the system, from `systemEntryOf` */
  readonly systemEntry: string
  readonly round: string
  readonly seed: number
  readonly note?: string | undefined
}

/** A fit as it goes into the record: each input with its range before and after, and what is taken as given. */
export function acceptedFitOf({ found, systemEntry, round, seed, note }: TakenOver): AcceptedFit {
  return {
    system: systemEntry,
    round,
    seed,
    level: found.level,
    readings: found.readings.length,
    unexplained: found.unexplained.length,
    inputs: found.inputs.map(({ id, words, unit, parts, before, after }) => ({
      id,
      words: cut(words),
      unit,
      parts: [...parts],
      believed: rounded(before),
      fitted: rounded(after),
    })),
    found: found.findings.map(({ id, kind, words, parts, size }) => ({
      id,
      kind,
      words: cut(words),
      parts: [...parts],
      ...(size === undefined ? {} : { size: { ...rounded(size), words: size.words, unit: size.unit } }),
    })),
    ...(note === undefined ? {} : { note }),
  }
}

/** More digits than any of it is known to, few enough to read. */
const DIGITS = 6
const rounded = ({ value, range: { lower, upper } }: Ranged): Ranged => {
  const short = (figure: number): number => Number(figure.toPrecision(DIGITS))
  return { value: short(value), range: { lower: short(lower), upper: short(upper) } }
}

const LONGEST_TEXT = 400
const cut = (text: string): string =>
  text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 1).trimEnd()}…` : text
