import { expect, test } from 'vitest'
import type { PlannedSample } from '../plan/plan-file.ts'
import { tasksFor } from './guided-steps.ts'

const names = (samples: readonly PlannedSample[]): string[] =>
  tasksFor(samples, { residual: 'total-chlorine' }).map(({ procedure, name }) => `${procedure} ${name}`)

const drain = {
  sampleKind: 'heater-drain',
  procedure: 'storage-heater-drain',
  circuit: 'hot',
  label: 'MRH-0024-85',
} as const
const tap = { sampleKind: 'bulk-hot', procedure: 'tap', circuit: 'hot' } as const
const second = { sampleKind: 'duplicate', procedure: 'duplicate', circuit: 'hot' } as const

// Filling "right after the first bottle, same flow, same way" is what reference/procedures/duplicate.json asks for.
test.each([
  ['of a heater, by its label', [drain, { ...second, repeats: drain.label }], 'storage-heater-drain'],
  ['of a tap, by its kind', [tap, { ...second, repeats: 'bulk-hot' }], 'tap'],
] as const)(
  '[FLD28] the duplicate %s is made ready, filled and labelled right after its first',
  (_, samples, procedure) => {
    const order = names(samples)
    const after = (name: string): string | undefined => order[order.indexOf(`duplicate ${name}`) - 1]
    expect(after('bulk-neutralizer')).toMatch(new RegExp(`^${procedure} .*neutralizer`))
    expect(order.indexOf('duplicate second')).toBeGreaterThan(order.indexOf('duplicate bulk-neutralizer'))
    expect(order.indexOf('duplicate label-bulk')).toBeGreaterThan(order.indexOf('duplicate second'))
    expect(after('label-bulk')).toMatch(new RegExp(`^${procedure} label`))
    expect(after('which')).toBe('duplicate label-bulk')
    const collect = tasksFor(samples, { residual: 'total-chlorine' })
    const at = collect.findIndex(({ name }) => name === 'second')
    expect(collect[at - 1]?.step.kind).toBe('collect')
    expect(collect[at - 1]?.sample?.sampleKind).toBe(samples[0].sampleKind)
  },
)

test('[FLD28] every step is still there, once', () => {
  const apart = [...names([drain]), ...names([second])].toSorted()
  expect(names([drain, { ...second, repeats: drain.label }]).toSorted()).toEqual(apart)
})
