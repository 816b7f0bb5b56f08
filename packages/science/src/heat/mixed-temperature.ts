import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { liquidWaterRangeC, meanHeatCapacityJPerKgK, waterDensityKgPerM3 } from '../water/liquid-water.ts'

export interface MixedTemperatureInput {
  hotC: number
  coldC: number
  hotFlowLPerMin: number
  coldFlowLPerMin: number
}

export interface MixedTemperature {
  temperatureC: number
  heatBalanceC: number
  hotShare: number
  flowLPerMin: number
}

/**
 * The temperature of hot and cold water mixed (°C), by flow, and by heat with density and heat capacity.
 * Wanted to tell what a mixer delivers, and whether cold water crossing over explains a lukewarm outlet.
 *
 * T = (Q₁ T₁ + Q₂ T₂) / (Q₁ + Q₂); by heat the weights are Q ρ c̄, ρ at its own temperature, c̄ the mean from there to T.
 *
 * Special cases: one flow of 0 gives the other's temperature; both 0 give nothing to mix.
 *
 * @param input hot and cold (0 to 100 °C) and their flows (L/min, at least 0, one above)
 * @throws RangeError when nothing flows
 * @source flow-weighted-mean
 * @source iapws-sr6-08
 * @example
 * mixedTemperature({ hotC: 60, coldC: 10, hotFlowLPerMin: 3, coldFlowLPerMin: 2 }).temperatureC // => 40
 */
export function mixedTemperature({
  hotC,
  coldC,
  hotFlowLPerMin,
  coldFlowLPerMin,
}: MixedTemperatureInput): MixedTemperature {
  const flowLPerMin = hotFlowLPerMin + coldFlowLPerMin
  if (!(flowLPerMin > 0)) throw new RangeError(`Cannot mix because nothing flows: got ${flowLPerMin} L/min`)
  const hotShare = hotFlowLPerMin / flowLPerMin
  return {
    temperatureC: coldC + hotShare * (hotC - coldC),
    heatBalanceC: heatBalance({ hotC, coldC, hotShare }),
    hotShare,
    flowLPerMin,
  }
}

/** Heat capacity hardly changes, so each step is some fifty times closer than the last. */
const MOST_STEPS = 20
const SETTLED_K = 1e-11

function heatBalance({ hotC, coldC, hotShare }: { hotC: number; coldC: number; hotShare: number }): number {
  let mixedC = coldC + hotShare * (hotC - coldC)
  for (let step = 0; step < MOST_STEPS; step++) {
    const weightOf = (fromC: number) => waterDensityKgPerM3(fromC) * meanHeatCapacityJPerKgK({ fromC, toC: mixedC })
    const [hot, cold] = [hotShare * weightOf(hotC), (1 - hotShare) * weightOf(coldC)]
    const next = coldC + (hot / (hot + cold)) * (hotC - coldC)
    if (Math.abs(next - mixedC) <= SETTLED_K) return next
    mixedC = next
  }
  return mixedC
}

const waterField = (what: string) =>
  field(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper), { what, unit: '°C' })

export const mixedTemperatureCalculation = defineCalculation({
  id: 'mixed-temperature',
  title: 'Hot and cold water mixed',
  purpose: 'What hot and cold water give when they come together at a mixer, a tap or a crossed connection.',
  formula: {
    text: 'T = (Qh·Th + Qc·Tc) / (Qh + Qc); by heat: weights Q·ρ·c instead of Q',
    symbols: {
      T: 'temperatureC',
      Th: 'hotC',
      Tc: 'coldC',
      Qh: 'hotFlowLPerMin',
      Qc: 'coldFlowLPerMin',
      ρ·c: 'heat of a litre per kelvin: density at its own temperature, mean heat capacity from there to T',
    },
  },
  input: z
    .strictObject({
      hotC: waterField('temperature of the hot water'),
      coldC: waterField('temperature of the cold water'),
      hotFlowLPerMin: field(measure.amount(), { what: 'flow of hot water', unit: 'L/min' }),
      coldFlowLPerMin: field(measure.amount(), { what: 'flow of cold water', unit: 'L/min' }),
    })
    .superRefine(({ hotFlowLPerMin, coldFlowLPerMin }, context) => {
      if (hotFlowLPerMin + coldFlowLPerMin > 0) return
      context.addIssue(refuse(['hotFlowLPerMin'], { expected: 'some flow, hot or cold', received: 'none of either' }))
    }),
  output: z.object({
    temperatureC: field(z.number(), { what: 'temperature of the mixed water, weighted by flow', unit: '°C' }),
    heatBalanceC: field(z.number(), {
      what: 'the same, counting that a litre of hot water is lighter; it lies some tenths below at usual temperatures',
      unit: '°C',
    }),
    hotShare: field(z.number(), { what: 'share of the flow that is hot, 0 to 1' }),
    flowLPerMin: field(z.number(), { what: 'flow of the mixed water', unit: 'L/min' }),
  }),
  sources: sourcesOf('flow-weighted-mean', 'iapws-sr6-08'),
  cautions: [
    'No heat is lost on the way and both waters mix fully. A mixer may deliver something else: measure at the outlet.',
    'Mixed water at the mean can still burn when the cold side fails. Mixing valves are set by a licensed trade, limits at outlets by the local code.',
  ],
  example: {
    input: { hotC: 60, coldC: 10, hotFlowLPerMin: 3, coldFlowLPerMin: 2 },
    output: {
      temperatureC: 40,
      heatBalanceC: 39.79457793168301,
      hotShare: 0.6,
      flowLPerMin: 5,
    },
  },
  run: mixedTemperature,
})
