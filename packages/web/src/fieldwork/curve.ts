import { CURVE_C, type TemperatureCurve } from '@rillmark/casebook/fieldwork/kinds.ts'
import type { ThresholdVerdict } from '@rillmark/casebook/fieldwork/steady.ts'
import { FIELDWORK, thresholdFor } from '@rillmark/casebook/fieldwork/figures.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { showTemperature } from '@rillmark/casebook/units/display.ts'
import { fromOtherUnit, isOtherUnit } from '@rillmark/casebook/units/scales.ts'
import { secondsInWords } from './clock.ts'

/** How often a reading may be asked for, in seconds. */
export const INTERVALS = FIELDWORK.readingChoicesSeconds

/** The interval chosen for the day; the usual one until somebody chooses. */
export function chosenInterval(day: { readonly get: (field: string) => string }): number {
  return INTERVALS.find((seconds) => String(seconds) === day.get('curve interval')) ?? FIELDWORK.readingEverySeconds
}

type Points = TemperatureCurve['points']

/** A curve as a draft keeps it: `0:26.1 10:33` (seconds:°C). */
export function writePoints(points: Points): string {
  return points.map(({ seconds, temperatureC }) => `${seconds}:${temperatureC}`).join(' ')
}

export function readPoints(text: string): Points {
  return text.split(' ').flatMap((pair) => {
    const [, seconds, temperatureC] = /^(\d+(?:\.\d+)?):(-?\d+(?:\.\d+)?)$/.exec(pair) ?? []
    return seconds === undefined ? [] : [{ seconds: Number(seconds), temperatureC: Number(temperatureC) }]
  })
}

/** One more reading; a second within the same second takes the place of the first. */
export function withPoint(points: Points, point: Points[number]): Points {
  const last = points.at(-1)
  const before = last !== undefined && last.seconds >= point.seconds ? points.slice(0, -1) : points
  return [...before, last !== undefined && last.seconds > point.seconds ? { ...point, seconds: last.seconds } : point]
}

/** Why a temperature can't be a reading of this probe; undefined where it can. */
export function outsideWords(
  temperatureC: number,
  { probe, show }: { probe: { rangeMin: number; rangeMax: number } | undefined; show: (celsius: number) => string },
): string | undefined {
  const lowest = Math.max(CURVE_C.min, probe?.rangeMin ?? CURVE_C.min)
  const highest = Math.min(CURVE_C.max, probe?.rangeMax ?? CURVE_C.max)
  if (temperatureC >= lowest && temperatureC <= highest) return undefined
  return `${show(lowest)} to ${show(highest)} is possible here. Read it again.`
}

/** The last reading moved by a step of the thermometer in the unit it shows, in °C. */
export function nudged(lastC: number, { step, units }: { step: number; units: DisplayUnits }): number {
  const { text, unit } = showTemperature(lastC, units)
  const value = Number((Number(text.replace('−', '-')) + step).toFixed(2))
  return isOtherUnit(unit) ? fromOtherUnit({ value, decimals: 1, unit }) : value
}

/** "50 °C was not reached in 1 min 20 s." */
export function verdictWords(of: {
  verdict: ThresholdVerdict
  quantity: 'hot-temperature' | 'cold-temperature'
  show: (celsius: number) => string
}): string {
  const { verdict, quantity, show } = of
  const { temperatureC, withinSeconds, direction } = thresholdFor(quantity)
  const limit = direction === 'below' ? `Below ${show(temperatureC)}` : show(temperatureC)
  const time = secondsInWords(verdict.seconds)
  if (verdict.kind === 'met') return `${limit} was reached by ${time}.`
  if (verdict.kind === 'late')
    return `${limit} was reached only at ${time}; ${secondsInWords(withinSeconds)} is allowed.`
  if (verdict.kind === 'not reached') return `${limit} was not reached in ${time}.`
  return `${limit} is expected within ${secondsInWords(withinSeconds)}.`
}

export interface CurveScale {
  readonly x: (seconds: number) => number
  readonly y: (temperatureC: number) => number
  readonly ticksC: readonly number[]
  readonly endSeconds: number
}

/** Axes for a curve: at least two minutes wide, ten-degree lines around what was read and the threshold. */
export function curveScale(
  points: Points,
  of: { width: number; height: number; thresholdC: number; left: number },
): CurveScale {
  const temperatures = [...points.map(({ temperatureC }) => temperatureC), of.thresholdC]
  const low = Math.floor((Math.min(...temperatures) - 2) / 10) * 10
  const high = Math.max(low + 30, Math.ceil((Math.max(...temperatures) + 2) / 10) * 10)
  const endSeconds = Math.max(MIN_WIDTH_SECONDS, Math.ceil(((points.at(-1)?.seconds ?? 0) + 10) / 30) * 30)
  const step = high - low > 50 ? 20 : 10
  return {
    x: (seconds) => of.left + ((of.width - of.left) * seconds) / endSeconds,
    y: (temperatureC) => of.height - (of.height * (temperatureC - low)) / (high - low),
    ticksC: Array.from({ length: Math.floor((high - low) / step) + 1 }, (_, index) => low + index * step),
    endSeconds,
  }
}

const MIN_WIDTH_SECONDS = 120
