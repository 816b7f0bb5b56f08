/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Draw, NetworkOutlet } from './network.ts'

const MINUTES_PER_DAY = 1440

/** The draws of a day by step: rows `start[step]` to `start[step + 1]` of the lists. */
export interface DrawsByStep {
  start: Int32Array
  outlet: Int32Array
  draw: Int32Array
  /** Mean over the step, so that a day's litres are kept. */
  flowLPerMin: Float64Array
  /** For so much of the step it runs. */
  minutes: Float64Array
}

/**
 * The draws of every outlet in each step of the day.
 * Wanted because the simulation asks each step who draws.
 *
 * Special cases: a draw that begins or ends within a step has its mean there; one past midnight goes on in the morning.
 *
 * @param outlets with draws in minutes from midnight and L/min
 * @param stepMinutes a divisor of 1440
 * @source none: it computes nothing of the trade
 * @example
 * drawsByStep([{ id: 'tap', coldNode: 0, draws: [{ startMinute: 0, minutes: 1, flowLPerMin: 6 }] }], 2).flowLPerMin[0] // => 3
 */
export function drawsByStep(outlets: readonly NetworkOutlet[], stepMinutes: number): DrawsByStep {
  const steps = MINUTES_PER_DAY / stepMinutes
  const counts = new Int32Array(steps + 1)
  const visit = (each: (step: number, of: { outlet: number; draw: number } & InStep) => void): void => {
    for (const [outlet, { draws }] of outlets.entries())
      for (const [draw, one] of draws.entries())
        eachStep(one, stepMinutes, (step, inStep) => each(step, { outlet, draw, ...inStep }))
  }
  visit((step) => counts[step + 1]!++)
  for (let step = 0; step < steps; step++) counts[step + 1]! += counts[step]!
  const next = counts.slice()
  const size = counts[steps]!
  const found: DrawsByStep = {
    start: counts,
    outlet: new Int32Array(size),
    draw: new Int32Array(size),
    flowLPerMin: new Float64Array(size),
    minutes: new Float64Array(size),
  }
  visit((step, { outlet, draw, flowLPerMin, minutes }) => {
    const at = next[step]!++
    found.outlet[at] = outlet
    found.draw[at] = draw
    found.flowLPerMin[at] = flowLPerMin
    found.minutes[at] = minutes
  })
  return found
}

interface InStep {
  flowLPerMin: number
  minutes: number
}

function eachStep(draw: Draw, stepMinutes: number, each: (step: number, of: InStep) => void): void {
  const steps = MINUTES_PER_DAY / stepMinutes
  const end = draw.startMinute + Math.min(draw.minutes, MINUTES_PER_DAY)
  for (let step = Math.floor(draw.startMinute / stepMinutes); step * stepMinutes < end; step++) {
    const within = Math.min(end, (step + 1) * stepMinutes) - Math.max(draw.startMinute, step * stepMinutes)
    if (within > 0) each(step % steps, { flowLPerMin: (draw.flowLPerMin * within) / stepMinutes, minutes: within })
  }
}
