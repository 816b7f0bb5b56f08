import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { makeLabel } from '../label/label.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { labelPlan } from './label-plan.ts'
import { makePlan } from './make-plan.ts'
import { marramInput, marramSystem } from './marram-plan.fixture.ts'
import type { Procedure } from '../procedures/procedure.ts'
import { PROCEDURES } from '../procedures/procedures.ts'
import type { Plan } from './plan-file.ts'
import { planInputFrom } from './plan-input-from-state.ts'
import { procedureIn } from './procedures-in-use.ts'

const { make } = entryMaker('marram')
const described = make('building.described', { source: 'file', system: marramSystem() })
const plan = makePlan(marramInput({ budget: { samples: 12 } }))
const first = labelPlan({ plan, taken: [], letters: 'MRH' })
const second = labelPlan({
  plan,
  taken: first.stops.flatMap(({ samples }) => samples.flatMap(({ label }) => label ?? [])),
  letters: 'MRH',
})
const adopt = (
  round: string,
  body: Plan,
  purpose: 'initial' | 'follow-up' = round === 'R1' ? 'initial' : 'follow-up',
) => ({ round, purpose, teams: [], plan: body })
const r1 = make('plan.adopted', adopt('R1', first))

const objections = (before: readonly Entry[], entry: Entry): string[] => {
  const checked = checkEntry(derive('marram', [...before]), entry)
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}
const changed = (change: (stop: Plan['stops'][number], at: number) => Plan['stops'][number]): Plan => ({
  ...first,
  stops: first.stops.map(change),
})

test('[PLN12] rounds follow one another: R1 is the initial one, none is skipped', () => {
  expect(objections([described], r1)).toEqual([])
  expect(objections([described], make('plan.adopted', adopt('R2', first)))).toContain('body.round')
  expect(objections([described, r1], make('plan.adopted', adopt('R2', second)))).toEqual([])
  expect(objections([described, r1], make('plan.adopted', adopt('R3', second)))).toContain('body.round')
  expect(objections([described], make('plan.adopted', adopt('R1', first, 'follow-up')))).toContain('body.purpose')
})

const ownTap = (change: Partial<Procedure> = {}): Procedure => {
  const [tap] = PROCEDURES.filter(({ id }) => id === 'tap')
  if (tap === undefined) throw new TypeError('no built-in tap procedure')
  return { ...tap, id: 'county-tap', version: 'county 1', title: 'Tap, county rule', ...change }
}

test('[PLN18] a procedure of one’s own joins the built-in ones, is planned first, and is not changed under a plan that names it', () => {
  const added = make('procedure.added', { procedure: ownTap() })
  expect(objections([described], added)).toEqual([])
  const state = derive('marram', [described, added])
  expect(procedureIn(state, 'county-tap')?.title).toBe('Tap, county rule')
  const input = planInputFrom(state, { budget: { samples: 40 } })
  const planned = input === undefined ? [] : makePlan(input).stops.flatMap(({ samples }) => samples)
  expect(planned.map(({ procedure }) => procedure)).toContain('county-tap')
  expect(planned.map(({ procedure }) => procedure)).not.toContain('tap')
  const replaced = make('procedure.added', { procedure: ownTap({ id: 'tap' }) })
  expect(objections([described], replaced)).toEqual([])
  expect(objections([described, r1], replaced)).toEqual(['body.procedure.id'])
  const [same] = PROCEDURES.filter(({ id }) => id === 'tap')
  expect(objections([described], make('procedure.added', { procedure: same ?? ownTap() }))).toEqual([
    'body.procedure.version',
  ])
})

test('[PLN13] every stop but a blank is at a component the described building has', () => {
  expect(objections([], r1)).toContain('body.plan.stops.0.component')
  const nowhere = changed((stop, at) => (at === 0 ? { ...stop, component: 'no-such-tap' } : stop))
  expect(objections([described], make('plan.adopted', adopt('R1', nowhere)))).toEqual(['body.plan.stops.0.component'])
  const twice = changed((stop, at) => (at === 1 ? { ...stop, id: first.stops[0]?.id ?? '' } : stop))
  expect(objections([described], make('plan.adopted', adopt('R1', twice)))).toEqual(['body.plan.stops.1.id'])
})

test('[PLN14] every sample that goes to the laboratory has a printed label with right check digits; readings have none', () => {
  expect(objections([described], make('plan.adopted', adopt('R1', plan)))[0]).toBe('body.plan.stops.0.samples.0.label')
  const wrong = changed((stop, at) =>
    at === 0
      ? { ...stop, samples: stop.samples.map((one, at) => (at === 0 ? { ...one, label: 'MRH-0001-00' } : one)) }
      : stop,
  )
  expect(objections([described], make('plan.adopted', adopt('R1', wrong)))).toEqual([
    'body.plan.stops.0.samples.0.label',
  ])
  const reading = {
    sampleKind: 'readings-only' as const,
    procedure: 'hot-readings',
    label: makeLabel({ prefix: 'MRH', number: 900 }).id,
  }
  const labelled = changed((stop, at) => (at === 0 ? { ...stop, samples: [reading, ...stop.samples] } : stop))
  expect(objections([described], make('plan.adopted', adopt('R1', labelled)))).toEqual([
    'body.plan.stops.0.samples.0.label',
  ])
})

test('[PLN15] a label is printed for one sample of the whole investigation', () => {
  const again = objections([described, r1], make('plan.adopted', adopt('R2', first)))
  expect(again.length).toBeGreaterThan(5)
  expect(again[0]).toMatch(/label MRH-0001/)
})

test('[PLN16] only an amendment with a reason changes the plan of an adopted round, and it keeps the stops where work has begun', () => {
  const stop = first.stops[0]?.id ?? ''
  const started = make('stop.started', { round: 'R1', stop })
  const record = [described, r1, started]
  const moved = adopt('R1', first)
  expect(objections([described, r1], make('plan.adopted', moved))).toContain('body.round')
  expect(objections(record, make('plan.adopted', moved))).toContain('body.round')
  expect(objections(record, make('plan.adopted', moved, { entry: r1.id, reason: 'team changed' }))).toEqual([])
  const without = adopt('R1', { ...first, stops: first.stops.slice(1) })
  expect(objections(record, make('plan.adopted', without, { entry: r1.id, reason: 'forgot' }))).toContain(
    'body.plan.stops',
  )
  expect(
    objections([described, r1], make('plan.adopted', adopt('R2', second), { entry: r1.id, reason: 'no' })),
  ).toContain('body.round')
})
