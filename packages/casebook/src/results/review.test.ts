import { describe, expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { makeLabel } from '../label/label.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import type { ResultValue } from '../units/result-value.ts'
import { type RowDecision, acceptResults } from './accept.ts'
import type { Mapping } from './kinds.ts'
import { editDistance } from './label-match.ts'
import type { ReadRow } from './read-row.ts'
import { type Review, reviewResults } from './review.ts'

const labelOf = (number: number) => makeLabel({ prefix: 'MRH', number }).id
const { make } = entryMaker('marram-house')
const collected = (number: number, sampleKind: 'bulk-hot' | 'first-flush-swab' = 'bulk-hot') =>
  make('sample.collected', { round: 'R1', stop: `s${number}`, label: labelOf(number), sampleKind, filter: 'none' })
const field = [1, 2, 3, 4, 5, 6].map((number) => collected(number))
const swab = collected(7, 'first-flush-swab')

function stateWith(...entries: Entry[]): InvestigationState {
  return derive('marram-house', [...field, swab, ...entries])
}

const count = (value: number, unit: 'CFU/L' | 'CFU/mL' | 'CFU/swab' = 'CFU/L'): ResultValue => ({
  kind: 'count',
  value,
  unit,
})
const below = (limit: number): ResultValue => ({ kind: 'below', limit, unit: 'CFU/L' })

interface RowOptions extends Partial<Omit<ReadRow, 'row' | 'label' | 'results'>> {
  readonly row?: number
  readonly limit?: number
}

function row(label: string, value: ResultValue, { row: number = 2, limit, ...rest }: RowOptions = {}): ReadRow {
  const unit = 'unit' in value ? value.unit : undefined
  const results = [
    {
      column: 'count',
      method: 'culture' as const,
      target: 'Legionella',
      reading: { kind: 'value' as const, value, remarks: [] },
      unit,
      cell: { kind: 'empty' as const },
      limit,
    },
  ]
  return { row: number, label, results, remarks: [], asWritten: { count: 'as written' }, ...rest }
}

/** rows numbered 2, 3, … as in a file, with labels 1, 2, … */
function rowsOf(values: readonly ResultValue[]): ReadRow[] {
  return values.map((value, index) => row(labelOf(index + 1), value, { row: index + 2 }))
}

const review = (rows: readonly ReadRow[], options: { state?: InvestigationState; takenBy?: string } = {}): Review =>
  reviewResults({
    state: options.state ?? stateWith(),
    rows,
    laboratory: 'Quillhaven Water Laboratory',
    ...(options.takenBy === undefined ? {} : { takenBy: options.takenBy }),
  })
const traps = (found: Review) => found.rows.map(({ reasons }) => reasons.map(({ trap }) => trap))

test('[RES8] a plain row of a known sample is matched; every row is matched, waiting or set aside, none is dropped', () => {
  const found = review([
    row(labelOf(1), count(300)),
    row('nothing known', count(20), { row: 3 }),
    row('Total', count(2), { row: 4 }),
  ])
  expect(found.rows.map(({ state }) => state)).toEqual(['matched', 'attention', 'set aside'])
  expect(found.counts).toEqual({ matched: 1, attention: 1, 'set aside': 1 })
})

describe('[RES9] labels: check characters say which are mis-keyed, the nearest is offered and never taken by itself', () => {
  test('one wrong character', () => {
    const wrong = `${labelOf(3).slice(0, -1)}${labelOf(3).endsWith('0') ? '1' : '0'}`
    const [found] = review([row(wrong, count(30))]).rows
    expect(found).toMatchObject({ state: 'attention', sample: undefined, reasons: [{ trap: 'label mis-keyed' }] })
    expect(found?.reasons[0]?.nearest?.[0]).toBe(labelOf(3))
  })
  test('a label written like ours that the record does not have', () => {
    expect(review([row(labelOf(900), count(30))]).rows[0]).toMatchObject({
      state: 'attention',
      reasons: [{ trap: 'label unknown' }],
    })
  })
  test('spacing, case and dashes do not matter', () => {
    expect(review([row(labelOf(3).toLowerCase().replaceAll('-', ' '), count(30))]).rows[0]).toMatchObject({
      state: 'matched',
      label: labelOf(3),
    })
  })
  test('a label settled by a person is used', () => {
    const found = reviewResults({
      state: stateWith(),
      rows: [row('MHR-0003', count(30))],
      laboratory: 'Q',
      relabelled: new Map([[2, labelOf(3)]]),
    })
    expect(found.rows[0]).toMatchObject({ state: 'matched', label: labelOf(3) })
  })
  test.each([
    ['abcd', 'abdc', 1],
    ['abcd', 'abxd', 1],
    ['abcd', 'abcd', 0],
    ['abc', 'abcd', 1],
    ['', 'ab', 2],
    ['kitten', 'sitting', 3],
  ])('edit distance of %s and %s', (a, b, want) => {
    expect(editDistance(a, b)).toBe(want)
  })
})

test('[RES10] labels that are not ours are samples taken by others once it is said who took them', () => {
  expect(review([row('tap 12', count(30))]).rows[0]).toMatchObject({ state: 'attention', registers: false })
  expect(review([row('tap 12', count(30))], { takenBy: 'the facility' }).rows[0]).toMatchObject({
    state: 'matched',
    registers: true,
  })
})

describe('[RES11] numbers turned into dates and slips of the unit are shown before anything is accepted', () => {
  test('counts that are day numbers far above all others (two counts of 44,595 and 44,665 CFU/L in a published workbook)', () => {
    const found = review(rowsOf([count(3.4), count(394), count(44_595), count(44_665), count(12), count(57)]))
    expect(found.rows[2]?.reasons[0]).toMatchObject({ trap: 'date for number', suggestion: count(3.2) })
    expect(found.rows[3]?.reasons[0]).toMatchObject({ trap: 'date for number', suggestion: count(14.4) })
    expect(found.counts.attention).toBe(2)
  })
  test('the same figure among counts of its size is a count', () => {
    expect(
      traps(review(rowsOf([count(30_000), count(41_000), count(44_595), count(12_000), count(9000)]))).flat(),
    ).toEqual([])
  })
  test('another unit than the other rows', () => {
    expect(traps(review(rowsOf([count(300), count(200), count(12, 'CFU/mL'), below(100)])))[2]).toEqual([
      'unit differs',
    ])
  })
  test('less than one colony in a whole litre', () => {
    const found = review(rowsOf([count(0.3), count(200), below(0.1)]))
    expect(found.rows[0]?.reasons[0]).toMatchObject({ trap: 'factor of 1000', suggestion: count(0.3, 'CFU/mL') })
    expect(found.rows[2]?.reasons[0]).toMatchObject({ trap: 'factor of 1000' })
  })
  test('a limit a thousand times off what this laboratory states', () => {
    expect(traps(review(rowsOf([below(100), below(100), below(100), below(100_000)])))[3]).toEqual(['factor of 1000'])
  })
  test('a count below its own limit', () => {
    expect(traps(review([row(labelOf(1), count(7), { limit: 100 })]))[0]).toEqual(['below its limit'])
  })
  test('a unit per swab for a sample of water; a volume unit on a swab is noted and kept', () => {
    expect(review([row(labelOf(1), count(7, 'CFU/swab'))]).rows[0]).toMatchObject({
      state: 'attention',
      reasons: [{ trap: 'swab or water' }],
    })
    expect(review([row(labelOf(7), count(7, 'CFU/mL'))]).rows[0]).toMatchObject({
      state: 'matched',
      reasons: [{ trap: 'swab or water' }],
    })
  })
})

describe('[RES12] half of a detection limit is marked and kept as what it is', () => {
  test('where the limit is stated', () => {
    const [found] = review(rowsOf([count(50), below(100), count(700)])).rows
    expect(found).toMatchObject({ state: 'matched', results: [{ value: count(50), halfLimitSuspected: true }] })
  })
  test('where the least count recurs and the next is at least twice it', () => {
    const found = review(rowsOf([count(5), count(5), count(20), count(5), count(700), count(90)]))
    expect(found.rows.map(({ results }) => results[0]?.halfLimitSuspected)).toEqual([
      true,
      true,
      false,
      true,
      false,
      false,
    ])
  })
  test('not where the next count is close, nor where the least is rare', () => {
    expect(traps(review(rowsOf([count(5), count(5), count(6), count(5), count(700)]))).flat()).toEqual([])
    expect(traps(review(rowsOf([count(5), count(20), count(40), count(90)]))).flat()).toEqual([])
  })
})

describe('[RES13] repeats are found within the file and against the record', () => {
  const reported = make('result.reported', {
    label: labelOf(1),
    laboratory: 'Quillhaven Water Laboratory',
    method: 'culture',
    target: 'Legionella',
    value: count(300),
    status: 'final',
  })
  test('same label and method twice in the file', () => {
    expect(traps(review([row(labelOf(1), count(300)), row(labelOf(1), count(310), { row: 3 })]))[1]).toEqual([
      'repeated in the file',
    ])
  })
  test('a row under another name with the same numbers, one of them a little different', () => {
    const pcr = (value: number) => ({
      ...row('x', { kind: 'count', value, unit: 'GU/L' }).results[0],
      column: 'pcr',
      method: 'PCR' as const,
    })
    const triple = (number: number, values: { temperatureC: number; cfu: number; gu: number }): ReadRow => {
      const base = row(labelOf(number), count(values.cfu), { row: number + 1, temperatureC: values.temperatureC })
      return { ...base, results: [...base.results, pcr(values.gu)] as ReadRow['results'] }
    }
    const found = review([
      triple(1, { temperatureC: 42.9, cfu: 8500, gu: 29_600 }),
      triple(2, { temperatureC: 31.4, cfu: 600, gu: 7500 }),
      triple(3, { temperatureC: 42.9, cfu: 8500, gu: 29_200 }),
      triple(4, { temperatureC: 31.4, cfu: 600, gu: 2920 }),
    ])
    expect(traps(found)).toEqual([[], [], ['near repeat'], []])
  })
  test('a result the record holds already brings nothing new', () => {
    expect(review([row(labelOf(1), count(300))], { state: stateWith(reported) }).rows[0]).toMatchObject({
      state: 'set aside',
      reasons: [{ trap: 'already in the record' }],
    })
  })
  test('a corrected report, or another value, waits: amend or keep both', () => {
    const [found] = review([row(labelOf(1), count(3000), { status: 'corrected' })], { state: stateWith(reported) }).rows
    expect(found).toMatchObject({ state: 'attention', reasons: [{ trap: 'changes a result' }] })
    expect(
      traps(review([row(labelOf(2), count(3000), { status: 'corrected' })], { state: stateWith(reported) }))[0],
    ).toEqual(['corrects nothing'])
  })
})

describe('[RES14] results that cannot be yet, and samples the laboratory took exception to', () => {
  test('reported or received before collection, a culture read on the next day, another collection date', () => {
    const on = (dates: Partial<ReadRow>) => traps(review([row(labelOf(1), below(100), dates)]))[0]
    expect(on({ reportedOn: '2026-03-01' })).toEqual(['before collection'])
    expect(on({ receivedOn: '2026-02-28', reportedOn: '2026-03-12' })).toEqual(['before collection'])
    expect(on({ reportedOn: '2026-03-03' })).toEqual(['too soon'])
    expect(on({ collectedOn: '2026-03-04', reportedOn: '2026-03-14' })).toEqual(['dates differ'])
    expect(on({ collectedOn: '2026-03-02', receivedOn: '2026-03-02', reportedOn: '2026-03-12' })).toEqual([])
  })
  test('refused at the laboratory', () => {
    const worker = { name: 'R. Vale', role: 'sampler' }
    const custody = [
      make('consignment.opened', { consignment: 'B1', container: 'cooler' }),
      make('sample.packed', { consignment: 'B1', label: labelOf(2) }),
      make('consignment.received', {
        consignment: 'B1',
        laboratory: 'Q',
        receivedBy: worker,
        sealIntact: true,
        samples: [{ label: labelOf(2), condition: 'broken' }],
      }),
    ]
    const state = stateWith(...custody)
    expect(traps(review([row(labelOf(2), below(100))], { state }))[0]).toEqual(['refused by the laboratory'])
    expect(traps(review([row(labelOf(2), { kind: 'broken' })], { state }))[0]).toEqual([])
  })
})

test('[RES15] a line of totals that the rows do not bear out is told', () => {
  const total = (value: number): ReadRow => ({
    ...row('Total', count(1), { row: 9 }),
    results: [{ ...row('Total', count(1)).results[0], cell: { kind: 'number', value } }] as ReadRow['results'],
  })
  const rows = rowsOf([count(300), below(100), count(20)])
  for (const right of [3, 2, 320]) expect(review([...rows, total(right)]).notes).toEqual([])
  expect(review([...rows, total(5)]).notes[0]).toContain(
    'states 5, but the file has 3 results, 2 of them positive, summing to 320',
  )
})

describe('[RES16] accepting gives the entries of the whole file, or everything that is still open', () => {
  const mapping: Mapping = {
    columns: { label: 'Sample' },
    decimal: 'point',
    dateOrder: 'year-month-day',
    results: [{ column: 'count', method: 'culture' }],
  }
  const file = { name: 'report.csv', sha256: 'a'.repeat(64) }
  const accept = (found: Review, decisions: [number, RowDecision][] = []) =>
    acceptResults({ review: found, decisions: new Map(decisions), file, mapping })

  function append(state: InvestigationState, accepted: ReturnType<typeof accept>): InvestigationState {
    if (!accepted.ok) throw new TypeError(JSON.stringify(accepted.issues))
    const imported = make('results.imported', accepted.value.imported)
    const entries = accepted.value.entriesOf(imported.id).map(({ kind, body, corrects }) => make(kind, body, corrects))
    return [imported, ...entries].reduce((before, entry) => {
      const checked = checkEntry(before, entry)
      if (!checked.ok) throw new TypeError(JSON.stringify(checked.issues))
      return extend(before, [checked.entry])
    }, state)
  }

  test('an undecided row holds back the file, by row', () => {
    const found = review([row(labelOf(1), count(300)), row('tap 9', count(5), { row: 3 })])
    expect(accept(found)).toMatchObject({ ok: false, issues: [{ path: 'rows.3' }] })
    expect(accept(found, [[3, { action: 'set aside', reason: ' ' }]])).toMatchObject({ ok: false })
    expect(accept(found, [[3, { action: 'accept' }]])).toMatchObject({ ok: false, issues: [{ path: 'rows.3.label' }] })
  })
  test('matched rows, settled values, samples of others and rows set aside become one import', () => {
    const found = review(
      [
        row(labelOf(1), count(300)),
        row('tap 9', count(0.3), { row: 3, draw: 'flushed' }),
        row('', count(9), { row: 4 }),
      ],
      { takenBy: 'the facility' },
    )
    const state = append(
      stateWith(),
      accept(found, [
        [
          3,
          {
            action: 'accept',
            values: { count: count(0.3, 'CFU/mL') },
            reason: 'the laboratory confirmed by telephone',
          },
        ],
        [4, { action: 'set aside', reason: 'no label' }],
      ]),
    )
    expect(state.results.imports[0]?.body).toMatchObject({
      rows: 3,
      accepted: 2,
      setAside: [{ row: 4, reason: 'no label' }],
    })
    expect(state.results.registered.get('tap 9')?.body).toMatchObject({ takenBy: 'the facility', draw: 'flushed' })
    expect(
      state.results.results.map(({ body }) => [
        body.label,
        body.value,
        body.importedBy === state.results.imports[0]?.id,
        body.asWritten,
      ]),
    ).toEqual([
      [labelOf(1), count(300), true, { count: 'as written' }],
      ['tap 9', count(0.3, 'CFU/mL'), true, { count: 'as written' }],
    ])
  })
  test('an amended report takes the place of the earlier one; both stay in the record', () => {
    const first = append(stateWith(), accept(review([row(labelOf(1), count(300))])))
    const found = review([row(labelOf(1), count(3000), { status: 'corrected' })], { state: first })
    const state = append(first, accept(found, [[2, { action: 'amend', reason: 'dilution entered wrongly' }]]))
    expect(state.results.results).toHaveLength(1)
    expect(state.results.results[0]).toMatchObject({ amendments: 1, body: { value: count(3000), status: 'corrected' } })
    expect(state.record.versions.get(state.results.results[0]?.id ?? '')?.amendments).toHaveLength(1)
  })
})

describe('[RES17] the record refuses results that belong nowhere', () => {
  const base = {
    label: labelOf(1),
    laboratory: 'Q',
    method: 'culture' as const,
    target: 'Legionella',
    value: count(300),
    status: 'final' as const,
  }
  const refusal = (entry: Entry) => {
    const checked = checkEntry(stateWith(), entry)
    return checked.ok ? [] : checked.issues.map(({ path }) => path)
  }
  test.each<[string, Entry, string[]]>([
    ['no such sample', make('result.reported', { ...base, label: 'tap 12' }), ['body.label']],
    ['before collection', make('result.reported', { ...base, reportedOn: '2026-03-01' }), ['body.reportedOn']],
    ['swab unit on water', make('result.reported', { ...base, value: count(1, 'CFU/swab') }), ['body.value.unit']],
    ['unknown import', make('result.reported', { ...base, importedBy: crypto.randomUUID() }), ['body.importedBy']],
    [
      'label in use',
      make('sample.registered', { label: labelOf(1), takenBy: 'others', draw: 'not stated' }),
      ['body.label'],
    ],
    [
      'rows that do not add up',
      make('results.imported', {
        fileName: 'a',
        sha256: 'a'.repeat(64),
        laboratory: 'Q',
        mapping: { columns: {}, decimal: 'point', dateOrder: 'year-month-day' },
        rows: 3,
        accepted: 1,
        setAside: [],
      }),
      ['body.rows'],
    ],
    [
      'isolate of no case',
      make('isolate.recorded', { code: 'I1', from: { origin: 'case', caseCode: 'C9' }, species: 'L. pneumophila' }),
      ['body.from.caseCode'],
    ],
    [
      'isolate of no sample',
      make('isolate.recorded', { code: 'I1', from: { origin: 'sample', label: 'x' }, species: 'L. pneumophila' }),
      ['body.from.label'],
    ],
    ['a sound result', make('result.reported', base), []],
  ])('%s', (_, entry, paths) => {
    expect(refusal(entry)).toEqual(paths)
  })
})
