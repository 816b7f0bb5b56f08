import { LONG_STEP_MINUTES, MANY_PIPES } from '@rillmark/science/network/long-steps.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import type { SystemProblem } from '../building/check-parts.ts'
import { checkSystem } from '../building/check-system.ts'
import { isHeater, type WaterSystem } from '../building/water-system.ts'
import { counted } from '../units/counted.ts'
import { compileChemistry } from './compile-chemistry.ts'
import type { Compilation } from './compiled.ts'
import { compileNodes } from './compile-nodes.ts'
import { compileOutlets } from './compile-outlets.ts'
import { compilePipes } from './compile-pipes.ts'
import type { CannotSay } from './conditions.ts'
import { leaveUnreached } from './leave-unreached.ts'
import { NetworkDraft } from './network-draft.ts'
import type { ConditionsOverrides } from './overrides.ts'
import { joinTemperedReturns } from './tempered-returns.ts'

export interface CompileOptions {
  /** Of the times of use, whole and 0 or more. */
  seed: number
  overrides?: ConditionsOverrides | undefined
  /** The network whose steps the mains take, where it is compared with another; its own where left out. */
  stepsOf?: Network | undefined
}

/**
 * The network of a described building, for simulation: nodes, pipes, draws and decay, with everything filled in that the description
 * does not say. All the reasons why it can't be simulated come at once.
 */
export function compileNetwork(system: WaterSystem, { seed, overrides = {}, stepsOf }: CompileOptions): Compilation {
  const problems = checkSystem(system)
  const reasons = [...problems.filter(isError).map(reasonOf), ...unsetHeaters(system)]
  if (reasons.length > 0) return { kind: 'cannot-say', reasons }
  const draft = new NetworkDraft(system, { seed, overrides })
  if (problems.length > 0)
    draft.cautions.add(`The check of the description asks to look at ${counted(problems.length, 'thing')}.`)
  compileNodes(draft)
  compilePipes(draft)
  joinTemperedReturns(draft)
  compileOutlets(draft)
  const chemistry = compileChemistry(draft)
  leaveUnreached(draft)
  if (draft.reasons.length > 0) return { kind: 'cannot-say', reasons: draft.reasons }
  const { nodes, pipes, outlets, valves } = draft
  const network: Network = { nodes, pipes, outlets, valves, chemistry }
  if ((stepsOf ?? network).pipes.length > MANY_PIPES)
    draft.cautions.add(pipes.length > MANY_PIPES ? LONG_STEPS : STEPS_OF_OTHER)
  return {
    kind: 'compiled',
    network,
    map: { components: draft.placed, pipes: draft.placedPipes },
    assumptions: draft.log.list(),
    cannotSay: draft.cannotSay,
    cautions: [...draft.cautions],
    residualKnown: draft.residualKnown,
  }
}

const LONG_STEPS = `With more than ${MANY_PIPES} pipes the mains are worked out in steps of ${LONG_STEP_MINUTES} minutes, the branches in steps of one.`
const STEPS_OF_OTHER = `The mains are worked out in steps of ${LONG_STEP_MINUTES} minutes, the branches in steps of one, as in the larger building this is compared with.`

const isError = ({ severity }: SystemProblem): boolean => severity === 'error'

/** What the check of a description calls an error is a reason. */
const reasonOf = ({ path, expected, received }: SystemProblem): CannotSay => ({
  at: path,
  why: `received ${received}`,
  needs: expected,
})

const unsetHeaters = ({ components }: WaterSystem): CannotSay[] =>
  components.flatMap((component, index) =>
    isHeater(component) && component.setpointC === undefined
      ? [
          {
            at: `components.${index}.setpointC`,
            why: `nobody said what ${component.id} is set to`,
            needs: 'its set point in °C',
          },
        ]
      : [],
  )
