import { makeFlowField } from '@rillmark/science/network/make-flow-field.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import type { CannotSay } from './conditions.ts'

/** Any draw will do to find out whether water comes to it. */
const A_DRAW_L_PER_MIN = 1

/** Why no flows can be found for a network, where none can: known flows that leave no way for the rest, or draws that nothing feeds. */
export function flowTrouble(network: Network): CannotSay | undefined {
  try {
    const field = makeFlowField(network)
    for (const { hotNode, coldNode, draws } of network.outlets)
      for (const node of [hotNode, coldNode])
        if (node !== undefined && draws.length > 0) field.setDemand(node, A_DRAW_L_PER_MIN)
    field.settle()
    return undefined
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    return { at: 'pipes', why: error.message, needs: 'flows that can be' }
  }
}
