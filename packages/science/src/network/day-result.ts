import type { Quantity } from './network.ts'

/** One figure over the repeating day, weighted by time. */
export interface Spread {
  mean: number
  min: number
  max: number
}

/** What the water at one place was over the last simulated day. */
export interface PlaceDay {
  ageHours: Spread
  temperatureC: Spread
  residualMgPerL: Spread
  /** Hours of standing behind the water, of its age. */
  standingHours: Spread
  /** Hours of the day between 25 and 45 °C. */
  hoursInGrowthBand: number
  /** The longest time without flow, over midnight too; 24 where nothing moves all day. */
  longestStagnationHours: number
  /** Screening figure, 0 to 1; see growth.ts. */
  growthIndex: number
  /** True where water never moves: age is then the cap, temperature the air's. Not said of vessels that are heated. */
  neverMoves: boolean
}

export interface PipeDay {
  /** Flow over the day, time-weighted, along from → to. */
  flowLPerMin: Spread
  velocityMPerS: Spread
  /** The water at the end to which it flows, at the one or the other where its flow turns; at rest, at that to which it last flowed. */
  end: PlaceDay
  /** Heat given to the air, watts averaged over the day; negative where the pipe warms the water. */
  heatLossW: number
}

/** The day as curves: `slots` equal spans from midnight; rows = pipes or nodes, columns = slots (index row · slots + slot). */
export interface DaySeries {
  slots: number
  pipes: Record<Quantity | 'flowLPerMin', Float32Array>
  nodes: Record<Quantity, Float32Array>
}

export interface SimulatedDay {
  /** By index of the network's lists. */
  pipes: readonly PipeDay[]
  /**
   * Sources, vessels (their top, and for growth their worst layer) and mixed nodes by their own water; any other by the ends of the
   * pipes that bring it water on balance: means by flow, extremes of all of them, hours as their mean and not those of the mixture.
   */
  nodes: readonly PlaceDay[]
  /** Water at the spout, weighted by flow; undefined where nothing was drawn. `minutesBelowUseC`: minutes of draw colder than wanted. */
  outlets: readonly (OutletDay | undefined)[]
  balance: { massErrorFraction: number; energyErrorFraction: number }
  daysUntilRepeating: number
  /** False where the day had not come to repeat itself when the limit of days was reached. */
  repeats: boolean
  series?: DaySeries | undefined
}

export interface OutletDay {
  ageHours: Spread
  temperatureC: Spread
  residualMgPerL: Spread
  standingHours: Spread
  growth: Spread
  drawnL: number
  minutesDrawn: number
  minutesBelowUseC: number
}

export interface SimulationOptions {
  /** Minutes a step, a divisor of 1440; 1 where left out. */
  stepMinutes?: number
  /** Minutes a step of the mains, a multiple of the step that divides 1440; the step where left out, about 5 beyond 1,000 pipes. */
  mainMinutes?: number
  mostDays?: number
  /** Curves in so many spans a day, a divisor of 1440; none where left out. */
  slots?: number
  /** Told the fraction done, 0 to 1; throw from it to stop. */
  progress?: (fraction: number) => void
}
