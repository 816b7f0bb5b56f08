import type { WaterSystem } from '../building/water-system.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import { calibrate } from './calibrate.ts'
import type { Calibration } from './calibration.ts'
import { mergeOverrides } from './merge-overrides.ts'
import type { ReasonKind } from './reason-kinds.ts'
import {
  coarse,
  measured,
  mixedForAll,
  normals,
  threeRisers,
  threeTaps,
  truthOf,
  usualRound,
} from './small-buildings.fixture.ts'

/** Something that is not as described, in an invented building. */
export interface KnownFault {
  kind: ReasonKind
  system: WaterSystem
  /** As the building truly is. */
  truly: ConditionsOverrides
  /** Words by which the place is known in a reason. */
  where: RegExp
}

export const KNOWN_FAULTS: readonly KnownFault[] = [
  {
    kind: 'stopped loop',
    system: threeTaps,
    truly: { closedPipes: ['hot-return-hot-c-f1-to-return-main-c'] },
    where: /riser C/,
  },
  {
    kind: 'slow loop',
    system: threeRisers,
    truly: { loopFlowLPerMin: { 'hot-return-hot-c-f2-to-return-main-c': 0.1 } },
    where: /riser C/,
  },
  {
    kind: 'closed mixing valve',
    system: mixedForAll,
    truly: { setpointC: { 'mixing-valve': 0 } },
    where: /Mixing valve/,
  },
  {
    kind: 'crossed mixing valve',
    system: threeRisers,
    truly: { crossFlowLPerMin: { 'shower-b202': 1.5 } },
    where: /riser B|[12]02 /,
  },
  {
    kind: 'failed check valve',
    system: threeRisers,
    truly: { crossFlowLPerMin: { 'shower-b202': -1 } },
    where: /riser B|[12]02 /,
  },
  {
    kind: 'unknown dead leg',
    system: threeTaps,
    truly: { lengthFactor: { 'hot-hot-b-f1-to-basin-tap-b102': 9 } },
    where: /102 basin tap/,
  },
]

/** A fit to readings of a building with inputs drawn from what is believed of them, noise, and what is truly otherwise. */
export function fittedBuilding(system: WaterSystem, { truly, seed }: { truly: ConditionsOverrides; seed: number }) {
  const normal = normals(seed)
  const readings = usualRound(system)
  const truth = truthOf(system, { readings, normal })
  const overrides = mergeOverrides([truth.overrides, truly])
  const found = calibrate(system, {
    readings: measured(system, { truly: { overrides }, readings, normal }),
    run: coarse,
  })
  if (found.kind === 'not fitted') throw new Error(found.why)
  return { truth, found }
}

/** How far a fault was found: named first, named beside the first as about as likely, or not; by its kind and by its place. */
export function howFound({ findings }: Calibration, { kind, where }: KnownFault) {
  const [first] = findings
  const named = first === undefined ? [] : [first, ...first.orElse]
  const places = named.filter((one) => one.kind === kind).map(({ words }) => where.test(words))
  return { first: first?.kind === kind, named: places.length > 0, placed: places.includes(true) }
}
