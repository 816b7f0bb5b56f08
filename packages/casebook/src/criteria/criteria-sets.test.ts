import { describe, expect, it } from 'vitest'
import { CRITERIA_SETS, acceptOwnCriteriaSet, findCriteriaSet } from './criteria-sets.ts'

const own = { ...structuredClone(findCriteriaSet('eu-2020-2184')), id: 'own-county', title: 'Our county' }

describe('criteria sets', () => {
  it('[CRI7] come from at least four jurisdictions, each with its own id, date and status', () => {
    expect(new Set(CRITERIA_SETS.map(({ jurisdiction }) => jurisdiction)).size).toBeGreaterThanOrEqual(7)
    expect(new Set(CRITERIA_SETS.map(({ id }) => id)).size).toBe(CRITERIA_SETS.length)
  })

  it('[CRI7] a set is verified only if every limit of its bands was seen', () => {
    for (const set of CRITERIA_SETS.filter(({ status }) => status === 'verified')) {
      const limits = set.scales
        .flatMap(({ bands }) => bands)
        .filter(({ from }) => from.kind === 'reaches' || from.kind === 'exceeds')
      expect([set.id, limits.every(({ known }) => known === 'seen')]).toEqual([set.id, true])
    }
  })

  it('[CRI7] accepts a well-formed set of the user and finds it', () => {
    const accepted = acceptOwnCriteriaSet(own)
    expect(accepted.ok).toBe(true)
    expect(accepted.ok ? findCriteriaSet('own-county', [accepted.value])?.title : '').toBe('Our county')
  })

  it('[CRI7] refuses a bad one with every problem at once', () => {
    const bad = {
      ...own,
      date: 'yesterday',
      status: 'fine',
      scales: [
        {
          id: 'a',
          title: 'a',
          water: 'potable',
          unit: 'CFU/L',
          bands: [
            {
              id: 'x',
              label: 'x',
              from: { kind: 'reaches', value: 100 },
              urgency: 'none',
              action: 'x',
              source: 'x',
              known: 'seen',
            },
            {
              id: 'y',
              label: 'y',
              from: { kind: 'reaches', value: 10 },
              urgency: 'none',
              action: 'x',
              source: 'x',
              known: 'seen',
            },
          ],
        },
      ],
      followUp: {
        title: 't',
        rule: { phases: [{ everyDays: 14, everyMonths: 1, forMonths: 3 }] },
        positiveMeans: 'any detection',
        closing: 'c',
        source: 's',
        known: 'memory',
      },
    }
    const refused = acceptOwnCriteriaSet(bad)
    expect(refused.ok ? [] : refused.issues.map(({ path }) => path).sort()).toEqual([
      'date',
      'followUp.rule.phases.0.everyDays',
      'scales.0.bands.0.from',
      'scales.0.bands.1.from',
      'status',
    ])
  })

  it('[CRI7] no set of the user hides a built-in one', () => {
    expect(acceptOwnCriteriaSet({ ...own, id: 'us-cdc' })).toMatchObject({ ok: false, issues: [{ path: 'id' }] })
  })
})
