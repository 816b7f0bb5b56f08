/** Where values of a day lie on a chart: x by span, y by value, lines at round figures. */
export interface DayScale {
  readonly x: (slot: number) => number
  readonly y: (value: number) => number
  readonly ticks: readonly number[]
  readonly decimals: number
}

interface Frame {
  readonly slots: number
  readonly left: number
  readonly right: number
  readonly height: number
  /** Round figures wanted, about. */
  readonly lines?: number
  /** The scale begins at nought. */
  readonly fromZero?: boolean
  /** A flat curve is not blown up beyond this much from bottom to top. */
  readonly leastSpread?: number
}

const ABOUT = 4
const ROUND = [1, 2, 5, 10]

/** Round steps around the values: 1, 2 or 5 times a power of ten. A flat curve keeps room above it. */
export function dayScale(values: readonly number[], frame: Frame): DayScale {
  const { slots, left, right, height, lines = ABOUT, fromZero = false, leastSpread = TINY } = frame
  const found = { low: Math.min(...values), high: Math.max(...values) }
  const low = fromZero ? 0 : found.low
  const spread = Math.max(found.high - low, leastSpread)
  const step = roundStep(spread / lines)
  const from = Math.floor(low / step) * step
  const to = Math.max(from + Math.round(spread / step) * step, Math.ceil(found.high / step) * step)
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  return {
    x: (slot) => left + ((right - left) * slot) / slots,
    y: (value) => height - (height * (value - from)) / (to - from),
    ticks: Array.from({ length: Math.round((to - from) / step) + 1 }, (_, at) =>
      Number((from + at * step).toFixed(decimals)),
    ),
    decimals,
  }
}

const TINY = 1e-3

function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough))
  return (ROUND.find((one) => one * power >= rough * (1 - 1e-9)) ?? 10) * power
}

/** Spans in which something flows, as stretches from the first span to the one after the last. */
export function stretches(flows: ArrayLike<number>, leastLPerMin: number): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = []
  for (let slot = 0; slot < flows.length; slot += 1) {
    if (Math.abs(flows[slot] ?? 0) < leastLPerMin) continue
    const last = found.at(-1)
    if (last !== undefined && last.to === slot) last.to = slot + 1
    else found.push({ from: slot, to: slot + 1 })
  }
  return found
}

/** The mean of each hour, for the table behind a chart. */
export function hourlyMeans(curve: ArrayLike<number>): number[] {
  const perHour = curve.length / 24
  return Array.from({ length: 24 }, (_, hour) => {
    const span = Array.from(curve).slice(Math.floor(hour * perHour), Math.floor((hour + 1) * perHour))
    return span.reduce((sum, value) => sum + value, 0) / Math.max(1, span.length)
  })
}
