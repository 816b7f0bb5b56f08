import * as z from 'zod'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { assumedUse } from '../building/assumptions.ts'
import { changedSystem } from '../building/changed-system.ts'
import { checkSystem } from '../building/check-system.ts'
import { buildGraph } from '../building/graph.ts'
import { deadLegs, returnLegs } from '../building/graph-questions.ts'
import type { SystemChange } from '../building/kinds.ts'
import { CIRCUITS, type Component, isHeater, isOutlet, type Pipe, type WaterSystem } from '../building/water-system.ts'
import { componentId } from '../entry/fields.ts'
import type { ConditionsOverrides } from './overrides.ts'

const temperatureC = z.number().min(0).max(95)

/** One thing that might be done to a building. */
export const whatIfChangeSchema = z.discriminatedUnion('change', [
  /** of a heater or mixing valve */
  z.strictObject({ change: z.literal('set-point'), component: componentId, setpointC: temperatureC }),
  /** of the return a pipe belongs to; 0 stops it */
  z.strictObject({ change: z.literal('loop-flow'), pipe: componentId, flowLPerMin: z.number().min(0).max(1000) }),
  /** of one pipe or of all pipes of a circuit */
  z.strictObject({
    change: z.literal('insulation'),
    of: z.union([z.strictObject({ pipe: componentId }), z.strictObject({ circuit: z.enum(CIRCUITS) })]),
    insulationMm: z.number().min(0).max(200),
  }),
  z.strictObject({
    change: z.literal('use'),
    outlet: componentId,
    use: z.discriminatedUnion('as', [
      z.strictObject({ as: z.literal('used'), eventsPerDay: z.number().positive().max(1440) }),
      z.strictObject({ as: z.literal('unused') }),
      /** once a day, hot and cold, on top of nothing */
      z.strictObject({
        as: z.literal('flushed daily'),
        at: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day such as 07:30'),
        minutes: z.number().positive().max(120),
        flowLPerMin: z.number().positive().max(100),
      }),
    ]),
  }),
  /** the dead leg a pipe belongs to, or every dead leg that ends at an outlet */
  z.strictObject({ change: z.literal('remove-dead-leg'), part: componentId }),
])
export type WhatIfChange = z.infer<typeof whatIfChangeSchema>

export type WhatIfAnswer =
  | { readonly kind: 'changed'; readonly system: WaterSystem; readonly overrides: ConditionsOverrides }
  | { readonly kind: 'issues'; readonly issues: readonly Issue[] }

/** What one change does: to the description, and to how it is simulated where a description can't say it. */
interface Step {
  readonly changes?: readonly SystemChange[]
  readonly closedPipes?: readonly string[]
  readonly issues?: readonly Issue[]
}

/**
 * The building as it would be after some changes, to be simulated beside the one that is. The description given stays as it is, and
 * nothing is written into the record. All that speaks against the changes comes at once.
 */
export function applyWhatIf(system: WaterSystem, changes: readonly WhatIfChange[]): WhatIfAnswer {
  let now = system
  const closedPipes: string[] = []
  const issues: Issue[] = []
  changes.forEach((change, at) => {
    const step = stepOf(now, change)
    now = changedSystem(now, step.changes ?? [])
    closedPipes.push(...(step.closedPipes ?? []))
    issues.push(...(step.issues ?? []).map((one) => ({ ...one, path: `changes.${at}.${one.path}` })))
  })
  if (issues.length > 0) return { kind: 'issues', issues }
  const broken = newErrors(system, now)
  if (broken.length > 0) return { kind: 'issues', issues: broken }
  return { kind: 'changed', system: now, overrides: closedPipes.length === 0 ? {} : { closedPipes } }
}

/** Errors the description did not have before. */
function newErrors(before: WaterSystem, after: WaterSystem): Issue[] {
  const errors = (system: WaterSystem): Issue[] =>
    checkSystem(system)
      .filter(({ severity }) => severity === 'error')
      .map(({ path, expected, received }) => ({ path, expected, received }))
  const known = new Set(errors(before).map((one) => JSON.stringify(one)))
  return errors(after).filter((one) => !known.has(JSON.stringify(one)))
}

function stepOf(system: WaterSystem, change: WhatIfChange): Step {
  switch (change.change) {
    case 'set-point':
      return setPoint(system, change)
    case 'loop-flow':
      return loopFlow(system, change)
    case 'insulation':
      return insulation(system, change)
    case 'use':
      return useOf(system, change)
    case 'remove-dead-leg':
      return withoutDeadLeg(system, change.part)
  }
}

type Of<C extends WhatIfChange['change']> = Extract<WhatIfChange, { change: C }>

const refused = (path: string, about: { expected: string; received: unknown }): Step => ({
  issues: [issue(path, about)],
})
const putComponent = (component: Component): SystemChange => ({ change: 'put-component', component })
const putPipe = (pipe: Pipe): SystemChange => ({ change: 'put-pipe', pipe })
const componentOf = (system: WaterSystem, id: string): Component | undefined =>
  system.components.find((one) => one.id === id)

function setPoint(system: WaterSystem, { component: id, setpointC }: Of<'set-point'>): Step {
  const component = componentOf(system, id)
  if (component === undefined || !(isHeater(component) || component.kind === 'mixing-valve'))
    return refused('component', { expected: 'a heater or mixing valve of the building', received: id })
  return { changes: [putComponent({ ...component, setpointC })] }
}

function loopFlow(system: WaterSystem, { pipe: id, flowLPerMin }: Of<'loop-flow'>): Step {
  const leg = returnLegs(buildGraph(system)).find(({ pipes }) => pipes.includes(id))
  if (leg === undefined) return refused('pipe', { expected: 'a pipe of a return', received: id })
  if (flowLPerMin === 0) return { closedPipes: leg.pipes }
  const own = system.pipes.filter((pipe) => leg.pipes.includes(pipe.id))
  const set =
    own.find(({ recirculationLPerMin }) => recirculationLPerMin !== undefined) ?? own.find((one) => one.id === id)
  return { changes: set === undefined ? [] : [putPipe({ ...set, recirculationLPerMin: flowLPerMin })] }
}

function insulation(system: WaterSystem, { of, insulationMm }: Of<'insulation'>): Step {
  const pipes = system.pipes.filter((pipe) => ('pipe' in of ? pipe.id === of.pipe : pipe.circuit === of.circuit))
  if (pipes.length === 0)
    return refused('of', {
      expected: 'a pipe or circuit of the building',
      received: 'pipe' in of ? of.pipe : of.circuit,
    })
  return { changes: pipes.map((pipe) => putPipe({ ...pipe, insulationMm })) }
}

function useOf(system: WaterSystem, { outlet: id, use }: Of<'use'>): Step {
  const outlet = componentOf(system, id)
  if (outlet === undefined || !isOutlet(outlet))
    return refused('outlet', { expected: 'an outlet of the building', received: id })
  const now = outlet.use ?? assumedUse(outlet.kind)
  if (use.as === 'unused') return { changes: [putComponent({ ...outlet, use: { pattern: 'unused' } })] }
  if (use.as === 'used') {
    const usual = now.pattern === 'pulses' ? now : assumedUse(outlet.kind)
    if (usual.pattern !== 'pulses')
      return refused('use', { expected: 'an outlet of a kind whose usual use is known', received: outlet.kind })
    return { changes: [putComponent({ ...outlet, use: { ...usual, eventsPerDay: use.eventsPerDay } })] }
  }
  if (now.pattern !== 'unused' && !(now.pattern === 'pulses' && now.eventsPerDay < 1))
    return refused('use', { expected: 'an outlet used less than once a day', received: now.pattern })
  const { at, minutes, flowLPerMin } = use
  return { changes: [putComponent({ ...outlet, use: { pattern: 'schedule', draws: [{ at, minutes, flowLPerMin }] } })] }
}

function withoutDeadLeg(system: WaterSystem, part: string): Step {
  const graph = buildGraph(system)
  const component = graph.components.get(part)
  const legs = deadLegs(graph).filter(({ pipes, outlets }) =>
    component === undefined ? pipes.includes(part) : outlets.includes(part),
  )
  const gone = new Set(legs.flatMap(({ pipes }) => pipes))
  if (gone.size === 0) {
    const expected = 'a pipe of a dead leg, or an unused outlet at the end of one'
    return refused('part', { expected, received: part })
  }
  const ends = [...graph.components.values()].filter(({ id }) => {
    const pipes = graph.pipesAt(id)
    return pipes.length > 0 && pipes.every((pipe) => gone.has(pipe.id))
  })
  return {
    changes: [
      ...[...gone].map((id) => ({ change: 'remove-pipe' as const, id })),
      ...ends.map(({ id }) => ({ change: 'remove-component' as const, id })),
    ],
  }
}
