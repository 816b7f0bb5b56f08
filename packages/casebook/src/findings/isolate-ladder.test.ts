import { describe, expect, test } from 'vitest'
import { checkEntry } from '../rules/check-entry.ts'
import { findCriteriaSet } from '../criteria/criteria-sets.ts'
import { derive } from '../state/derive.ts'
import { chosenCriteria } from './chosen-criteria.ts'
import { collected, labelOf, make, stateOf } from './findings.fixture.ts'
import { isolateComparisons } from './isolate-ladder.ts'

interface Typing {
  readonly species: string
  readonly serogroup?: string
  readonly monoclonalType?: string
  readonly sequenceType?: string
}

function compared(ofCase: Typing, ofSample: Typing) {
  const state = stateOf(
    make('case.recorded', { code: 'C1', classification: 'confirmed', link: 'not judged', isolate: 'kept' }),
    collected(1, { component: 'shower-A1' }),
    make('isolate.recorded', { code: 'P1', from: { origin: 'case', caseCode: 'C1' }, ...ofCase }),
    make('isolate.recorded', { code: 'E1', from: { origin: 'sample', label: labelOf(1) }, ...ofSample }),
  )
  const [comparison, ...others] = isolateComparisons(state)
  if (comparison === undefined || others.length > 0) throw new TypeError('expected one pair')
  return comparison
}

describe('[FND11] isolates are compared rung by rung: same, different, or not compared', () => {
  const full: Typing = {
    species: 'L. pneumophila',
    serogroup: '1',
    monoclonalType: 'Philadelphia',
    sequenceType: 'ST36',
  }
  // case | sample | species, serogroup, monoclonal type, sequence type
  test.each<[string, Typing, Typing, string]>([
    [
      'all the same, written differently',
      full,
      { species: 'Legionella pneumophila', serogroup: 'sg 1', monoclonalType: 'philadelphia', sequenceType: '36' },
      'same same same same',
    ],
    ['another sequence type', full, { ...full, sequenceType: 'ST1' }, 'same same same different'],
    [
      'another serogroup, not typed further',
      full,
      { species: 'L. pneumophila', serogroup: '6' },
      'same different not compared not compared',
    ],
    ['another species', full, { species: 'L. anisa' }, 'different not compared not compared not compared'],
    ['nothing typed', { species: 'unknown' }, full, 'not compared not compared not compared not compared'],
    [
      'not done is not a type',
      { ...full, sequenceType: 'not done' },
      { ...full, sequenceType: 'not done' },
      'same same same not compared',
    ],
  ])('%s', (_, ofCase, ofSample, want) => {
    const { rungs, sentence } = compared(ofCase, ofSample)
    expect(Object.values(rungs).join(' ')).toBe(want)
    expect(sentence).not.toMatch(/proven|proof|certain/i)
  })

  test('the sentence says how far the comparison went', () => {
    expect(compared(full, full).sentence).toContain('how much that weighs depends on how common the type is')
    expect(compared(full, { species: 'L. pneumophila', serogroup: '1' }).sentence).toBe(
      'Same species and serogroup. This is shared by many unrelated strains and says little by itself. Not compared: monoclonal type and sequence type.',
    )
    expect(compared(full, { ...full, sequenceType: 'ST1' }).sentence).toMatch(
      /^Different sequence type: this isolate does not match this case/,
    )
  })
})

const germany = findCriteriaSet('de-trinkwv')

describe('[FND12] the criteria set in force', () => {
  const checked = (body: Parameters<typeof make<'criteria.chosen'>>[1]) => {
    const result = checkEntry(stateOf(), make('criteria.chosen', body))
    return result.ok ? [] : result.issues.map(({ path }) => path)
  }
  test('a built-in one is named by id and version', () => {
    expect(checked({ criteria: 'de-trinkwv', version: germany?.version ?? '' })).toEqual([])
    expect(checked({ criteria: 'de-trinkwv', version: '1999' })).toEqual(['body.version'])
    expect(checked({ criteria: 'nowhere', version: '1' })).toEqual(['body.criteria'])
  })
  test('an own one is checked by the schema, with all issues, and stays whole in the record', () => {
    const own = { ...germany, id: 'quillhaven-2026', version: '1', title: 'Quillhaven' }
    expect(checked({ criteria: 'quillhaven-2026', version: '1', own })).toEqual([])
    expect(checked({ criteria: 'quillhaven-2026', version: '1', own: { ...own, date: 'soon', scales: 3 } })).toEqual([
      'body.own.date',
      'body.own.scales',
    ])
    expect(checked({ criteria: 'other', version: '1', own })).toEqual(['body.criteria'])
    expect(
      chosenCriteria(
        derive('marram-house', [make('criteria.chosen', { criteria: 'quillhaven-2026', version: '1', own })]),
      ),
    ).toMatchObject({ kind: 'chosen', own: true, set: { title: 'Quillhaven' } })
  })
  test('none is in force before one is chosen, and a version this program lacks is told', () => {
    expect(chosenCriteria(stateOf())).toEqual({ kind: 'none' })
    expect(chosenCriteria(stateOf(make('criteria.chosen', { criteria: 'de-trinkwv', version: '1999' })))).toMatchObject(
      { kind: 'missing', version: '1999' },
    )
  })
})

describe('[FND13] a conclusion stands on evidence of the record', () => {
  const evidence = [{ ref: labelOf(1), words: '1200 CFU/L', speaks: 'for' as const }]
  const base = { statement: 'It grows on riser A.', strength: 'moderate' as const, evidence, components: ['shower-A1'] }
  test.each([
    ['sound', base, []],
    ['without evidence', { ...base, evidence: [] }, ['body.evidence']],
    [
      'on nothing of the record',
      { ...base, evidence: [{ ref: 'hearsay', words: 'x', speaks: 'for' as const }] },
      ['body.evidence.0.ref'],
    ],
    ['strong, without what would change it', { ...base, strength: 'strong' as const }, ['body.wouldChangeIt']],
    ['about a place that is not there', { ...base, components: ['attic'] }, ['body.components.0']],
  ])('%s', (_, body, paths) => {
    const result = checkEntry(stateOf(collected(1, { component: 'shower-A1' })), make('finding.concluded', body))
    expect(result.ok ? [] : result.issues.map(({ path }) => path)).toEqual(paths)
  })
})
