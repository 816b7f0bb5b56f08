import type { Circuit, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { differenceSd } from '@rillmark/casebook/calibration/difference-sd.ts'
import type { FieldReading } from '@rillmark/casebook/calibration/field-reading.ts'
import { mergeOverrides } from '@rillmark/casebook/calibration/merge-overrides.ts'
import { predictedReadings } from '@rillmark/casebook/calibration/predicted-readings.ts'
import { readingSd } from '@rillmark/casebook/calibration/reading-sd.ts'
import { simulateBuilding } from '@rillmark/casebook/calibration/simulate-building.ts'
import type { SimulationRun } from '@rillmark/casebook/calibration/simulation-run.ts'
import type { ConditionsOverrides } from '@rillmark/casebook/conditions/overrides.ts'
import { type RandomSource, seededRandom } from '@rillmark/science/random/random-source.ts'

/** Where and when an instrument is held into the water. */
export interface Held {
  readonly component: string
  readonly circuit: Circuit
  readonly clockMinute: number
}

const RETURN_OF = (riser: string): string => `hot-return-hot-${riser}-f6-to-return-main-${riser}`

/** What nobody in the house knows: a house somewhat unlike its description, within what is usual. */
const TRULY: ConditionsOverrides = {
  ambientShiftK: 1,
  hotLossFactor: 1.25,
  coldLossFactor: 1.1,
  setpointC: { 'heater-1': 58.6, 'heater-2': 59.1 },
  bulkFactor: 0.8,
  wallFactor: 1.2,
  loopFlowLPerMin: { [RETURN_OF('a')]: 2.6, [RETURN_OF('b')]: 3.4, [RETURN_OF('c')]: 2.8, [RETURN_OF('d')]: 2.3 },
}
const NEARLY_CLOSED: ConditionsOverrides = { loopFlowLPerMin: { [RETURN_OF('c')]: 0.2 } }

/** How the house was on the day of a round: the return of riser C nearly closed until it was balanced, the supply warmer with the spring. */
export const ON_THE_DAY: Readonly<Record<string, ConditionsOverrides>> = {
  R1: mergeOverrides([TRULY, { supplyTemperatureC: 12.4, supplyResidualMgPerL: 1.9 }, NEARLY_CLOSED]),
  R2: mergeOverrides([TRULY, { supplyTemperatureC: 13.1, supplyResidualMgPerL: 1.8 }]),
  R3: mergeOverrides([TRULY, { supplyTemperatureC: 14.2, supplyResidualMgPerL: 1.85 }]),
}

/** People draw at other times than a fit supposes. */
const SEED_OF_USE = 2026
const CURVE_STEP_S = 10
const CURVE_END_S = 120
/** A sampling valve at plant holds water as warm as the room, and clears at once. */
const ROOM_C = 24
const VALVE_CLEARS_S = 8
/** The flow of a tap is not just what is described, and the thermometer trembles. */
const PACE_SD = 0.2
const TREMBLE_C = 0.06

/** What instruments show in the house on the day of a round: its water simulated as the house truly was, and noise from a fixed seed. */
export class HouseWater {
  readonly #system: WaterSystem
  readonly #run: SimulationRun
  readonly #random: RandomSource

  constructor(system: WaterSystem, round: string) {
    const run = simulateBuilding({ seed: SEED_OF_USE })(system, ON_THE_DAY[round] ?? TRULY)
    if (run === undefined) throw new Error('The example can’t be simulated as its house truly is')
    this.#system = system
    this.#run = run
    this.#random = seededRandom(Number.parseInt(round.slice(1), 10))
  }

  /** One reading of cold water or of a residual, as far as its instrument tells. */
  read(held: Held, quantity: FieldReading['quantity']): number {
    const [one] = this.#predicted(held, { quantity, seconds: [undefined] })
    if (one === undefined)
      throw new Error(`The example reads ${held.circuit} water at ${held.component}, where none is`)
    const sd = differenceSd({ quantity, sd: readingSd({ quantity, value: one.value }) }, { daySd: 0, timingSd: 0 })
    return tenths(Math.max(0, one.value + this.#random.normal() * Math.hypot(sd, one.daySd)))
  }

  /** Hot water from the opening of the tap, every ten seconds. */
  curve(held: Held): { seconds: number; temperatureC: number }[] {
    const pace = Math.exp(PACE_SD * this.#random.normal())
    const off = this.#random.normal() * readingSd({ quantity: 'temperature', value: 0 })
    const seconds = Array.from({ length: CURVE_END_S / CURVE_STEP_S + 1 }, (_, index) => index * CURVE_STEP_S)
    const predicted = this.#predicted(held, { quantity: 'temperature', seconds: seconds.map((each) => each * pace) })
    const isTap = (predicted[0]?.value ?? 0) !== (predicted.at(-1)?.value ?? 0)
    return seconds.map((second, at) => {
      const value = predicted[at]?.value ?? Number.NaN
      const shown = isTap ? value : value + (ROOM_C - value) * Math.exp(-second / VALVE_CLEARS_S)
      return { seconds: second, temperatureC: tenths(shown + off + TREMBLE_C * this.#random.normal()) }
    })
  }

  #predicted(
    { component, circuit, clockMinute }: Held,
    { quantity, seconds }: { quantity: FieldReading['quantity']; seconds: readonly (number | undefined)[] },
  ) {
    const readings = seconds.map((each, at) => ({
      id: `${at}`,
      component,
      circuit,
      quantity,
      value: 0,
      sd: 0,
      clockMinute,
      ...(each === undefined ? {} : { seconds: each }),
    }))
    return predictedReadings(this.#run, { system: this.#system, readings })
  }
}

const tenths = (value: number): number => Number(value.toFixed(1))
