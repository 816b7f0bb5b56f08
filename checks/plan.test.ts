import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { fitPlan, preparePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { PROCEDURES } from '@rillmark/casebook/procedures/procedures.ts'
import { describe, expect, test } from 'vitest'

/**
 * How many outlets must be sampled to find colonisation of a given share with 95 % confidence and a perfect test:
 * 59 at 5 %, 29 at 10 %, 14 at 20 %, 9 at 30 % of very many outlets, n = ⌈ln 0.05 / ln(1 − p)⌉ (Hanley and Lippman-Hand 1983,
 * JAMA 249:1743, computed from its formula); finite, from the exact hypergeometric distribution as R's `dhyper` gives it (computed).
 */
describe('a plan detects as often as published sample sizes say', () => {
  const outlets = 2000
  const system = buildSystem({
    name: 'very many outlets',
    floors: 20,
    risers: 20,
    outlets: { shower: 5 },
    heaters: [{ kind: 'storage' }],
    recirculation: 'per-riser',
    mixing: 'none',
    supply: { disinfectant: 'free-chlorine' },
  })
  const prepared = preparePlan({ system, procedures: PROCEDURES, budget: { samples: 0 }, sensitivity: 1 })
  const detectionAt = (sampled: number): number => {
    for (let samples = 2 * sampled; samples < 20 * sampled + 200; samples++) {
      const plan = fitPlan(prepared, { samples })
      if (plan.totals.outlets === sampled)
        return plan.scenarios.find(({ id }) => id === 'local-outlets')?.detectionProbability ?? -1
    }
    return -1
  }

  test('29 outlets find 1 in 10 colonised with 95 %, 28 do not', () => {
    // 1 − 0.9²⁸ = 0.9477 and 1 − 0.9²⁹ = 0.9529 for very many outlets; 2,000 lie within 0.002 of that
    expect(detectionAt(29)).toBeGreaterThanOrEqual(0.95)
    expect(detectionAt(28)).toBeLessThan(0.95)
    expect(detectionAt(29)).toBeCloseTo(1 - 0.9 ** 29, 2)
  })

  test('29 outlets without a positive could hide about a tenth: the rule of three says 3/29', () => {
    for (let samples = 60; ; samples++) {
      const plan = fitPlan(prepared, { samples })
      if (plan.totals.outlets !== 29) continue
      const hidden = Number(/up to (\d+) colonised/.exec(plan.couldHide[0] ?? '')?.[1])
      // exact upper limit 1 − 0.05^(1/29) = 9.8 % of very many outlets; 3/n is its approximation
      expect(hidden / outlets).toBeGreaterThan(1 - 0.05 ** (1 / 29) - 0.005)
      expect(hidden / outlets).toBeLessThanOrEqual(3 / 29)
      break
    }
  })
})

test('every kind of site that an outbreak investigation is told to sample is in the plan', () => {
  // US CDC, Sampling Procedure and Potential Sampling Sites, and WHO 2007 (Bartram et al., after Barbaree 1987): incoming main, water
  // softener and tanks, heater, returns, outlets near and far, and those the cases used. Known: seen as restated, lists of kinds only.
  const system = buildSystem({
    name: 'small',
    floors: 3,
    risers: 2,
    outlets: { shower: 2, 'basin-tap': 1 },
    heaters: [{ kind: 'storage' }],
    coldTank: {},
    recirculation: 'per-riser',
    mixing: 'none',
    supply: { disinfectant: 'free-chlorine' },
  })
  const plan = fitPlan(preparePlan({ system, procedures: PROCEDURES, budget: { samples: 100 } }), { samples: 60 })
  const kinds = plan.stops.map(({ component }) => system.components.find(({ id }) => id === component)?.kind)
  for (const kind of ['supply-entry', 'cold-tank', 'storage-heater', 'shower']) expect(kinds).toContain(kind)
  expect(
    plan.stops.filter(({ samples }) => samples.some(({ sampleKind }) => sampleKind === 'return-line')),
  ).toHaveLength(2)
})
