import type { SimulatedDay, SimulationOptions } from '@rillmark/science/network/day-result.ts'
import { makeFlowField } from '@rillmark/science/network/make-flow-field.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import type { CannotSay } from './conditions.ts'

/** Any draw will do to find out whether water comes to an outlet, or to a port of a mixing valve. */
const A_DRAW_L_PER_MIN = 1

/** The simulated day, or why there are no flows that could make one. */
export function dayOrTrouble(network: Network, options: SimulationOptions): SimulatedDay | CannotSay {
  try {
    return simulateDay(network, options)
  } catch (error) {
    const trouble = error instanceof RangeError ? flowTrouble(network) : undefined
    if (trouble === undefined) throw error
    return trouble
  }
}

/** Why no flows can be found for a network, where none can: known flows that leave no way for the rest, or draws that nothing feeds. */
function flowTrouble(network: Network): CannotSay | undefined {
  try {
    const field = makeFlowField(network)
    for (const { hotNode, coldNode, draws } of network.outlets)
      for (const node of [hotNode, coldNode])
        if (node !== undefined && draws.length > 0) field.setDemand(node, A_DRAW_L_PER_MIN)
    for (const { hotNode, coldNode } of network.valves)
      for (const node of [hotNode, coldNode]) field.setDemand(node, A_DRAW_L_PER_MIN)
    field.settle()
    return undefined
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    return { at: 'pipes', why: error.message, needs: 'flows that can be' }
  }
}
