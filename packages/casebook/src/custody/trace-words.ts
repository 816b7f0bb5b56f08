import { counted } from '../units/counted.ts'
import { durationWords } from './time-words.ts'
import type { TransportTemperature } from './transport-temperature.ts'

const MINUTE_MS = 60_000
const SECONDS_A_MINUTE = 60

/** A logger in one sentence: how much it kept, how long it was outside the range, what it left out. */
export function traceWords({
  logger,
  points,
  usualSeconds,
  outside,
  missingPieces,
}: TransportTemperature['traces'][number]): string {
  return [
    `Logger${logger === undefined ? '' : ` ${logger}`}: ${counted(points.length, 'reading')}${usualSeconds === undefined ? '' : `, one every ${everyWords(usualSeconds)}`}`,
    ...(outside === undefined ? [] : outsideWords(outside)),
    ...(missingPieces.length === 0 ? [] : [`${counted(missingPieces.length, 'piece')} of its file not in the record`]),
  ].join('; ')
}

function outsideWords({
  minutesAbove,
  minutesBelow,
  minutesKnown,
  gaps,
}: NonNullable<TransportTemperature['traces'][number]['outside']>): string[] {
  const within = `of ${durationWords(minutesKnown * MINUTE_MS)}`
  const outside = [
    ...(minutesAbove > 0 ? [`too warm for ${lengthWords(minutesAbove)} ${within}`] : []),
    ...(minutesBelow > 0 ? [`too cold for ${lengthWords(minutesBelow)} ${within}`] : []),
  ]
  const lostMs = gaps.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0)
  return [
    ...(minutesKnown === 0
      ? ['nothing kept while the samples were in it']
      : outside.length === 0
        ? [`within the range for all ${within}`]
        : outside),
    ...(gaps.length === 0 ? [] : [`${counted(gaps.length, 'gap')} of ${durationWords(lostMs)} together`]),
  ]
}

/** A time outside is never rounded down to none. */
function lengthWords(minutes: number): string {
  return minutes < 1 ? 'less than a minute' : durationWords(minutes * MINUTE_MS)
}

function everyWords(seconds: number): string {
  return seconds % SECONDS_A_MINUTE === 0 ? `${seconds / SECONDS_A_MINUTE} min` : `${seconds} s`
}
