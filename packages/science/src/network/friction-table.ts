import {
  GRAVITY_M_PER_S2,
  LAMINAR_BELOW,
  LAMINAR_FACTOR,
  REYNOLDS_FACTOR,
  REYNOLDS_POWER,
  ROUGHNESS_DIVISOR,
  transitionCubic,
  TURBULENT_ABOVE,
  TURBULENT_FACTOR,
} from './friction.ts'
import { kinematicViscosityMm2PerS } from '../pipes/viscosity.ts'

const MM_PER_M = 1000
const M3_PER_S_PER_L_PER_MIN = 1 / 60_000
const MM2_PER_M2 = 1e6
/** Numbers kept for a kind of pipe: see `add`. */
const WIDTH = 9

export interface Bore {
  boreMm: number
  roughnessMm: number
  temperatureC: number
}

/**
 * Head lost to friction in kinds of pipe (same bore, roughness, temperature), made for being asked millions of times.
 *
 * h/L = f/d · v²/2g, with f as in `frictionFactor`; below a Reynolds number of 2000 it is linear in the flow. `at` leaves its
 * answer in `perM`, `perMSlope`, `fitting`, `fittingSlope`: head per metre (m/m), head of a loss coefficient of 1 (m), and
 * their derivatives by the flow (per L/min). Heads have the sign of the flow.
 */
export class FrictionTable {
  perM = 0
  perMSlope = 0
  fitting = 0
  fittingSlope = 0
  readonly #kinds = new Map<string, number>()
  #numbers = new Float64Array(WIDTH)

  /** The number of a kind of pipe. */
  add(bore: Bore): number {
    const key = `${bore.boreMm} ${bore.roughnessMm} ${bore.temperatureC}`
    const known = this.#kinds.get(key)
    if (known !== undefined) return known
    const kind = this.#kinds.size
    this.#kinds.set(key, kind)
    this.#grow(kind)
    this.#numbers.set(numbersOf(bore), kind * WIDTH)
    return kind
  }

  #grow(kind: number): void {
    if ((kind + 1) * WIDTH <= this.#numbers.length) return
    const larger = new Float64Array(this.#numbers.length * 2)
    larger.set(this.#numbers)
    this.#numbers = larger
  }

  /** Head lost by a flow (L/min) in a kind of pipe. */
  at(kind: number, flowLPerMin: number): void {
    const n = this.#numbers
    const k = kind * WIDTH
    const flow = Math.abs(flowLPerMin)
    const velocityHead = n[k + 1] as number
    this.fitting = velocityHead * flow * flowLPerMin
    this.fittingSlope = 2 * velocityHead * flow
    const reynolds = (n[k] as number) * flow
    if (reynolds <= LAMINAR_BELOW) {
      this.perMSlope = n[k + 3] as number
      this.perM = this.perMSlope * flowLPerMin
      return
    }
    let factor = 0
    let growth = 0
    if (reynolds >= TURBULENT_ABOVE) {
      const smooth = REYNOLDS_FACTOR * Math.exp(-REYNOLDS_POWER * Math.log(reynolds))
      const inside = (n[k + 4] as number) + smooth
      const log = Math.log(inside)
      factor = (TURBULENT_FACTOR * Math.LN10 * Math.LN10) / (log * log)
      growth = (2 * REYNOLDS_POWER * smooth) / (inside * log)
    } else {
      const r = reynolds / LAMINAR_BELOW
      const c1 = n[k + 6] as number
      const c2 = n[k + 7] as number
      const c3 = n[k + 8] as number
      factor = (n[k + 5] as number) + r * (c1 + r * (c2 + r * c3))
      growth = (r * (c1 + r * (2 * c2 + 3 * r * c3))) / factor
    }
    // h ~ f·q², so dh/dq = h/q · (2 + dln f/dln q)
    const size = factor * (n[k + 2] as number) * flow
    this.perM = size * flowLPerMin
    this.perMSlope = size * (2 + growth)
  }
}

/** Re per flow, velocity head of K 1 per flow², head per metre of f 1 per flow², laminar head per metre and flow, e/3.7d, cubic. */
function numbersOf({ boreMm, roughnessMm, temperatureC }: Bore): number[] {
  const boreM = boreMm / MM_PER_M
  const velocity = M3_PER_S_PER_L_PER_MIN / ((Math.PI / 4) * boreM * boreM)
  const kinematic = kinematicViscosityMm2PerS(temperatureC) / MM2_PER_M2
  const reynolds = (velocity * boreM) / kinematic
  const velocityHead = (velocity * velocity) / (2 * GRAVITY_M_PER_S2)
  const laminar = ((LAMINAR_FACTOR / reynolds) * velocityHead) / boreM
  const rough = roughnessMm / boreMm
  return [reynolds, velocityHead, velocityHead / boreM, laminar, rough / ROUGHNESS_DIVISOR, ...transitionCubic(rough)]
}
