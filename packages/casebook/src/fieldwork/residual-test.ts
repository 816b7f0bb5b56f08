import type { InvestigationState } from '../state/investigation-state.ts'
import { FIELDWORK, type ResidualTest, testFor } from './figures.ts'

/** The chlorine test that fits the described supply, and why. */
export function residualTest(state: InvestigationState): ResidualTest {
  return testFor(state.building.system?.supply.disinfectant.kind)
}

/** Why a chlorine kit can't tell a low residual; undefined when it can. */
export function tooCoarse(kit: { readonly resolution: number; readonly rangeMin: number }): string | undefined {
  const limit = FIELDWORK.coarsestStepMgPerL
  const why =
    kit.resolution > limit
      ? `steps of ${kit.resolution} mg/L`
      : kit.rangeMin > limit
        ? `a scale that begins at ${kit.rangeMin} mg/L`
        : undefined
  return why === undefined
    ? undefined
    : `a pool-type kit: ${why} can't tell a residual below ${FIELDWORK.lowResidualMgPerL} mg/L`
}
