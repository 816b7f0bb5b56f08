import { describe, expect, it } from 'vitest'
import type { SampleKind } from '../entry/fields.ts'
import type { ResultValue } from '../units/result-value.ts'
import type { CriteriaSet } from './criteria-set.ts'
import { findCriteriaSet } from './criteria-sets.ts'
import { judge } from './judge.ts'
import { judgeShare } from './judge-share.ts'

const set = (id: string): CriteriaSet => {
  const found = findCriteriaSet(id)
  if (found === undefined) throw new Error(`no criteria set ${id}`)
  return found
}

const inWords = (
  criteria: string,
  value: ResultValue,
  more: { sampleKind?: SampleKind; scaleId?: string; species?: string } = {},
): string => {
  const judgement = judge({ criteria: set(criteria), sampleKind: 'bulk-hot', value, ...more })
  if (judgement.kind === 'band') return judgement.band.id
  if (judgement.kind === 'undecided') return `? ${judgement.possible.map(({ id }) => id).join('|')}`
  return `- ${judgement.reason}`
}

const count = (value: number, unit: 'CFU/mL' | 'CFU/100 mL' | 'CFU/L'): ResultValue => ({ kind: 'count', value, unit })

describe('judge', () => {
  it.each<[string, ResultValue, string]>([
    ['a count in another unit of the same family', count(10_000, 'CFU/L'), 'uncontrolled'],
    ['nothing in a litre', { kind: 'not-detected', volumeMl: 1000 }, 'not-detected'],
    ['nothing, no volume told', { kind: 'not-detected' }, 'not-detected'],
    [
      'nothing in half a millilitre: up to 2 per mL',
      { kind: 'not-detected', volumeMl: 0.5 },
      '? not-detected|poorly-controlled',
    ],
    ['below a fine limit', { kind: 'below', limit: 100, unit: 'CFU/L' }, 'not-detected'],
    ['below the very limit of a band', { kind: 'below', limit: 1, unit: 'CFU/mL' }, 'not-detected'],
    [
      'below a coarse limit',
      { kind: 'below', limit: 20, unit: 'CFU/mL' },
      '? not-detected|poorly-controlled|uncontrolled',
    ],
    ['above the highest band', { kind: 'above', limit: 300, unit: 'CFU/mL' }, 'uncontrolled'],
    ['above a limit inside a band', { kind: 'above', limit: 3, unit: 'CFU/mL' }, '? poorly-controlled|uncontrolled'],
    ['found, not counted', { kind: 'detected' }, '? well-controlled|poorly-controlled|uncontrolled'],
  ])('[CRI1] %s: %j', (_, value, want) => {
    expect(inWords('us-cdc', value)).toBe(want)
  })

  it('[CRI2] whether a limit counts when it is reached or only when it is exceeded is part of the set', () => {
    const exactly = count(100, 'CFU/100 mL')
    expect(inWords('de-trinkwv', exactly)).toBe('action-value-reached')
    expect(inWords('de-trinkwv', exactly, { scaleId: 'w551' })).toBe('none')
    expect(inWords('de-trinkwv', count(99, 'CFU/100 mL'))).toBe('below-action-value')
    expect(inWords('de-trinkwv', count(101, 'CFU/100 mL'), { scaleId: 'w551' })).toBe('medium')
    expect(inWords('de-trinkwv', { kind: 'above', limit: 100, unit: 'CFU/100 mL' }, { scaleId: 'w551' })).toBe(
      '? medium|high|extremely-high',
    )
  })

  it.each<[string, ResultValue, SampleKind, string]>([
    ['a swab', { kind: 'detected' }, 'first-flush-swab', 'presence or absence'],
    ['a swab counted per swab', { kind: 'count', value: 40, unit: 'CFU/swab' }, 'bulk-hot', 'per swab'],
    ['genome units', { kind: 'count', value: 5000, unit: 'GU/L' }, 'bulk-hot', 'not converted'],
    ['a most probable number', { kind: 'count', value: 50, unit: 'MPN/100 mL' }, 'bulk-cold', 'not converted'],
    ['a blank', { kind: 'not-detected', volumeMl: 1000 }, 'field-blank', 'tests the handling'],
    ['an overgrown plate', { kind: 'overgrown' }, 'bulk-hot', 'not a negative'],
    ['a broken bottle', { kind: 'broken' }, 'bulk-hot', 'sample again'],
    ['a sample not tested', { kind: 'not-tested', reason: 'arrived late' }, 'bulk-hot', 'arrived late'],
    ['readings', { kind: 'not-detected' }, 'readings-only', 'only readings'],
  ])('[CRI3] %s is not squeezed into a band of counts in water', (_, value, sampleKind, reason) => {
    for (const id of ['us-cdc', 'de-trinkwv', 'fr-2010', 'eu-2020-2184', 'nl-2011', 'uk-hsg274'])
      expect(inWords(id, value, { sampleKind })).toContain(`- `)
    expect(inWords('us-cdc', value, { sampleKind })).toContain(reason)
  })

  it('[CRI4] only the species a set counts are judged by it, and a missing species is said', () => {
    const much = count(5000, 'CFU/L')
    expect(inWords('fr-2010', much, { species: 'Legionella pneumophila' })).toBe('target-missed')
    expect(inWords('fr-2010', much, { species: 'L. anisa' })).toContain('the laboratory reported L. anisa')
    expect(inWords('fr-2010', much, { species: 'Legionella non-pneumophila' })).toContain('- this set counts')
    expect(inWords('eu-2020-2184', much, { species: 'L. anisa' })).toBe('value-reached')
    const judgement = judge({ criteria: set('fr-2010'), sampleKind: 'bulk-hot', value: much })
    expect(judgement).toMatchObject({
      kind: 'band',
      caveats: ['species not reported: this set counts Legionella pneumophila'],
    })
  })

  it('[CRI5] a set from memory says so on every judgement', () => {
    const judgement = judge({ criteria: set('uk-hsg274'), sampleKind: 'bulk-hot', value: count(150, 'CFU/L') })
    expect(judgement).toMatchObject({ kind: 'band', caveats: ['criteria from memory, verify before use'] })
  })

  it('a set without bands judges no single result', () => {
    expect(inWords('us-ny-facilities', count(5, 'CFU/mL'))).toContain('no result bands')
  })
})

describe('judgeShare', () => {
  it.each([
    [2, 10, 'below-30'],
    [3, 10, '30-or-more'],
    [6, 20, '30-or-more'],
    [29, 97, 'below-30'],
    [30, 100, '30-or-more'],
    [0, 10, 'below-30'],
  ])('[CRI6] %d of %d sites is %s', (positive, total, want) => {
    expect(judgeShare(set('us-ny-facilities'), { positive, total })).toMatchObject({ kind: 'band', band: { id: want } })
  })

  it('[CRI6] half is no majority', () => {
    expect(judgeShare(set('uk-hsg274'), { positive: 5, total: 10 })).toMatchObject({ band: { id: 'few' } })
    expect(judgeShare(set('uk-hsg274'), { positive: 6, total: 10 })).toMatchObject({ band: { id: 'most' } })
  })

  it('says when there is no rule or no sample', () => {
    expect(judgeShare(set('de-trinkwv'), { positive: 1, total: 2 }).kind).toBe('not-applicable')
    expect(judgeShare(set('us-ny-facilities'), { positive: 0, total: 0 }).kind).toBe('not-applicable')
    expect(() => judgeShare(set('us-ny-facilities'), { positive: 3, total: 2 })).toThrow(RangeError)
  })
})
