import { kinematicViscosityMm2PerS } from '../pipes/viscosity.ts'
import { frictionFactor, frictionSlope, GRAVITY_M_PER_S2, LAMINAR_BELOW, LAMINAR_FACTOR } from './friction.ts'

const MM_PER_M = 1000
const M3_PER_S_PER_L_PER_MIN = 1 / 60_000
const MM2_PER_M2 = 1e6

/** Doublings of the Reynolds number from 2000 that are tabled, and pieces in each; beyond them the formula is asked. */
const DOUBLINGS = 11
const PIECES = 16
const ORDER = 4
/** Numbers kept for a kind of pipe: five of its own, then the pieces. */
const OWN = 5
const WIDTH = OWN + DOUBLINGS * PIECES * ORDER
const SCALE = Float64Array.from({ length: DOUBLINGS }, (_, doubling) => PIECES / 2 ** doubling)
const BEYOND = 2 ** DOUBLINGS

export interface Bore {
  boreMm: number
  roughnessMm: number
  temperatureC: number
}

/**
 * Head lost to friction in kinds of pipe (same bore, roughness, temperature), made for being asked millions of times.
 *
 * h/L = f/d · v²/2g. Below a Reynolds number of 2000 it is linear in the flow. Above, f is tabled in cubics that have its value
 * and slope at both ends of each piece; they keep within 1e-7 of `frictionFactor`. `at` leaves its answer in `perM`,
 * `perMSlope`, `fitting`, `fittingSlope`: head per metre (m/m), head of a loss coefficient of 1 (m), and their derivatives by
 * the flow (per L/min). Heads have the sign of the flow.
 */
export class FrictionTable {
  perM = 0
  perMSlope = 0
  fitting = 0
  fittingSlope = 0
  readonly #kinds = new Map<string, number>()
  #numbers = new Float64Array(WIDTH)
  /** What was last asked for is asked for again, for pipes come in runs. */
  #last: Bore | undefined
  #lastKind = 0

  /** The number of a kind of pipe. */
  add(bore: Bore): number {
    if (isAlike(bore, this.#last)) return this.#lastKind
    this.#lastKind = this.#kindOf(bore)
    this.#last = bore
    return this.#lastKind
  }

  #kindOf(bore: Bore): number {
    const key = `${bore.boreMm} ${bore.roughnessMm} ${bore.temperatureC}`
    const known = this.#kinds.get(key)
    if (known !== undefined) return known
    const kind = this.#kinds.size
    this.#kinds.set(key, kind)
    this.#grow(kind)
    fill(this.#numbers.subarray(kind * WIDTH, (kind + 1) * WIDTH), bore)
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
    const ratio = (n[k] as number) * flow
    if (ratio <= 1) {
      const slope = n[k + 3] as number
      this.perMSlope = slope
      this.perM = slope * flowLPerMin
    } else if (ratio < BEYOND) {
      const doubling = 31 - Math.clz32(ratio)
      const scale = SCALE[doubling] as number
      const scaled = ratio * scale
      const piece = scaled | 0
      const p = k + OWN + (doubling * PIECES + piece - PIECES) * ORDER
      const t = scaled - piece
      const c1 = n[p + 1] as number
      const c2 = n[p + 2] as number
      const c3 = n[p + 3] as number
      const factor = (n[p] as number) + t * (c1 + t * (c2 + t * c3))
      const growth = (c1 + t * (2 * c2 + 3 * t * c3)) * scaled
      const size = (n[k + 2] as number) * flow
      this.perM = size * factor * flowLPerMin
      this.perMSlope = size * (2 * factor + growth)
    } else {
      const pipe = { reynolds: ratio * LAMINAR_BELOW, relativeRoughness: n[k + 4] as number }
      const factor = frictionFactor(pipe)
      const size = (n[k + 2] as number) * flow
      this.perM = size * factor * flowLPerMin
      this.perMSlope = size * (2 * factor + frictionSlope(pipe) * pipe.reynolds)
    }
  }
}

const isAlike = (one: Bore, other: Bore | undefined): boolean =>
  one.boreMm === other?.boreMm && one.roughnessMm === other.roughnessMm && one.temperatureC === other.temperatureC

/**
 * Writes a kind's numbers: Re/2000 per flow, velocity head of K 1 per flow², head per metre of f 1 per flow², laminar head per
 * metre and flow, roughness over bore; then the cubics.
 */
function fill(numbers: Float64Array, { boreMm, roughnessMm, temperatureC }: Bore): void {
  const boreM = boreMm / MM_PER_M
  const velocity = M3_PER_S_PER_L_PER_MIN / ((Math.PI / 4) * boreM * boreM)
  const kinematic = kinematicViscosityMm2PerS(temperatureC) / MM2_PER_M2
  const reynolds = (velocity * boreM) / kinematic
  const velocityHead = (velocity * velocity) / (2 * GRAVITY_M_PER_S2)
  const laminar = ((LAMINAR_FACTOR / reynolds) * velocityHead) / boreM
  const relativeRoughness = roughnessMm / boreMm
  numbers.set([reynolds / LAMINAR_BELOW, velocityHead, velocityHead / boreM, laminar, relativeRoughness])
  for (let piece = 0; piece < DOUBLINGS * PIECES; piece += 1) {
    numbers.set(cubicOf({ piece, relativeRoughness }), OWN + piece * ORDER)
  }
}

/** Coefficients of the cubic through value and slope at both ends of a piece, over 0 to 1. */
function cubicOf({ piece, relativeRoughness }: { piece: number; relativeRoughness: number }): number[] {
  const width = (LAMINAR_BELOW * 2 ** Math.floor(piece / PIECES)) / PIECES
  const reynolds = width * (PIECES + (piece % PIECES))
  const [start, end] = [
    { reynolds, relativeRoughness },
    { reynolds: reynolds + width, relativeRoughness },
  ]
  const [value, slope] = [frictionFactor(start), frictionSlope(start) * width]
  const [rise, endSlope] = [frictionFactor(end) - value, frictionSlope(end) * width]
  return [value, slope, 3 * rise - 2 * slope - endSlope, slope + endSlope - 2 * rise]
}
