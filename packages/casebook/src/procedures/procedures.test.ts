import { describe, expect, it } from 'vitest'
import { issueLine } from '@rillmark/science/catalogue/issue.ts'
import type { Procedure } from './procedure.ts'
import { PROCEDURES, acceptOwnProcedure, findProcedure, proceduresFor, stepsFor } from './procedures.ts'

const get = (id: string): Procedure => {
  const found = findProcedure(id)
  if (found === undefined) throw new Error(`no procedure ${id}`)
  return found
}

const own = (change: (draft: Procedure) => void): unknown => {
  const draft = structuredClone(get('shower'))
  draft.version = 'county-1'
  change(draft)
  return draft
}

describe('procedures', () => {
  it('[PRO1] cover every sample kind and have ids of their own', () => {
    const kinds = new Set(PROCEDURES.flatMap(({ sampleKinds }) => sampleKinds))
    expect([...kinds].sort()).toEqual(
      [
        'bulk-cold',
        'bulk-hot',
        'duplicate',
        'field-blank',
        'first-flush-swab',
        'heater-drain',
        'readings-only',
        'return-line',
      ].sort(),
    )
    expect(new Set(PROCEDURES.map(({ id }) => id)).size).toBe(PROCEDURES.length)
  })

  it('[PRO2] every sample is produced by exactly one step, and every bottle is neutralized before it is filled and labelled after', () => {
    for (const { id, steps, sampleKinds } of PROCEDURES) {
      expect([id, steps.flatMap(({ produces }) => produces ?? []).sort()]).toEqual([id, [...sampleKinds].sort()])
      for (const [index, step] of steps.entries()) {
        if (step.produces === undefined || step.kind !== 'collect') continue
        const [before, after] = [steps.slice(0, index), steps.slice(index + 1)]
        expect([
          id,
          before.some(({ kind, container }) => kind === 'neutralize' && container === step.container),
        ]).toEqual([id, true])
        expect([id, after.some(({ kind }) => kind === 'label')]).toEqual([id, true])
      }
    }
  })

  it('[PRO3] nothing runs before the first flush and swab, and hot readings come last', () => {
    for (const { id, steps } of PROCEDURES) {
      const swab = steps.findIndex(({ produces }) => produces === 'first-flush-swab')
      const flowing = steps.findIndex(({ kind }) => kind === 'run' || kind === 'read')
      expect([id, swab === -1 || flowing === -1 || swab < flowing]).toEqual([id, true])
      const hot = steps.findIndex(({ readings }) => readings.includes('temperature-curve-hot'))
      expect([id, hot === -1 || hot === steps.length - 1]).toEqual([id, true])
    }
  })

  it('[PRO3] a procedure of the user that runs the water first, or reads hot before sampling, is refused at that step', () => {
    const early = acceptOwnProcedure(
      own(({ steps }) =>
        steps.unshift(
          ...steps.splice(
            steps.findIndex(({ kind }) => kind === 'run'),
            1,
          ),
        ),
      ),
    )
    expect(early.ok ? [] : early.issues.map(issueLine).join()).toContain('first flush and swab before any running')
    const hotFirst = acceptOwnProcedure(own(({ steps }) => steps.splice(7, 0, ...steps.splice(-1, 1))))
    expect(hotFirst.ok ? [] : hotFirst.issues.map(issueLine).join()).toContain('hot readings after every sample')
  })

  it('[PRO4] an own procedure replaces a built-in one under another version; every problem is told at once', () => {
    const accepted = acceptOwnProcedure(own(() => undefined))
    expect(accepted.ok ? findProcedure('shower', [accepted.value])?.version : '').toBe('county-1')
    expect(acceptOwnProcedure(get('shower'))).toMatchObject({ ok: false, issues: [{ path: 'version' }] })
    const bad = acceptOwnProcedure(
      own((draft) => {
        draft.date = 'soon'
        delete draft.hold
        for (const step of draft.steps) step.id = 'same'
        draft.containers = []
      }),
    )
    expect(bad.ok ? [] : bad.issues.map(({ path }) => path)).toContain('date')
    const broken = acceptOwnProcedure(
      own((draft) => {
        delete draft.hold
        draft.containers = []
      }),
    )
    const paths = broken.ok ? [] : broken.issues.map(({ path }) => path)
    expect(paths).toContain('hold')
    expect(paths.filter((path) => path.endsWith('.container')).length).toBeGreaterThan(3)
  })

  it('[PRO5] steps that only serve a sample not asked for fall away', () => {
    const ids = (wanted: Parameters<typeof stepsFor>[1]): string[] =>
      stepsFor(get('shower'), wanted).map(({ id }) => id)
    expect(ids(['first-flush-swab'])).not.toContain('run')
    expect(ids(['first-flush-swab'])).toEqual(expect.arrayContaining(['first-water', 'swab', 'label-swab', 'hot']))
    expect(ids(['bulk-hot'])).not.toContain('first-water')
    expect(ids(['first-flush-swab', 'bulk-hot'])).toHaveLength(get('shower').steps.length)
  })

  it('finds the procedures made for a kind of component', () => {
    expect(proceduresFor('hand-shower', { sampleKind: 'first-flush-swab' }).map(({ id }) => id)).toEqual(['shower'])
    expect(proceduresFor('storage-heater').map(({ id }) => id)).toContain('storage-heater-drain')
  })

  it('[PRO6] every instruction fits a phone and every hot or heater procedure carries a caution', () => {
    for (const { id, steps } of PROCEDURES) {
      const hot = steps.some(({ readings }) => readings.includes('temperature-curve-hot'))
      expect([id, !hot || steps.some(({ caution }) => caution !== undefined)]).toEqual([id, true])
      for (const step of steps) expect(step.instruction.length).toBeLessThanOrEqual(170)
    }
  })
})
