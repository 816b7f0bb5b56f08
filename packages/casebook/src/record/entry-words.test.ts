import type { Procedure } from '../procedures/procedure.ts'
import { PROCEDURES } from '../procedures/procedures.ts'
import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { conditionsByHand } from '../conditions/conditions.fixture.ts'
import { predictionOf } from '../conditions/prediction-of.ts'
import type { Entry } from '../entry/entry.ts'
import { type BodyOf, type Kind, KINDS } from '../entry/kinds.ts'
import { makePlan } from '../plan/make-plan.ts'
import { marramInput } from '../plan/marram-plan.fixture.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { entryWords } from './entry-words.ts'

const id = '00000000-0000-8000-8000-000000000001'
const hash = 'a'.repeat(64)
const stop = { round: 'R1', stop: 'S7' }
const system = buildSystem(marramHouse)
const prediction = predictionOf({
  system,
  systemEntry: id,
  conditions: conditionsByHand(system),
  note: 'before the balancing',
})
const plan = makePlan(marramInput())
const courier = { name: 'Pell', role: 'courier' }
const lab = { name: 'Ash', role: 'bench' }

/** One body of every kind with the line it must read; the type makes a new kind without a line an error. */
function anyProcedure(): Procedure {
  const [first] = PROCEDURES
  if (first === undefined) throw new TypeError('no built-in procedure')
  return first
}

const LINES: { readonly [K in Kind]: readonly [BodyOf<K>, string | RegExp] } = {
  'investigation.opened': [
    { title: 'Marram House', setting: 'apartments', openedOn: '2026-03-02', reason: 'two cases' },
    'Marram House, apartments: two cases',
  ],
  'note.written': [{ text: 'Who runs\nthe pump?', purpose: 'open question' }, 'Open question: Who runs the pump?'],
  'calculation.recorded': [
    { id: 'neutralizer', input: {}, result: {}, working: 'Neutralizer\n\nResult\n- covers: 1.77 mg/L\n- enough: no' },
    'Neutralizer: covers: 1.77 mg/L; enough: no',
  ],
  'question.settled': [{ question: id, answer: 'The caretaker' }, 'The caretaker'],
  'case.recorded': [
    { code: 'C1', classification: 'confirmed', link: 'possible', isolate: 'kept' },
    'Case C1, confirmed, onset not known, link possible, isolate kept',
  ],
  'exposure.recorded': [
    { caseCode: 'C1', place: 'room 605', kind: 'shower', from: '2026-02-01', to: '2026-02-03' },
    'Case C1: shower at room 605, 2026-02-01 to 2026-02-03',
  ],
  'incubation.chosen': [{ definition: '2-14', reason: 'agreed' }, '2-14, agreed'],
  'building.described': [
    { source: 'quick description', system },
    `Marram House, from quick description: ${system.components.length} components, ${system.pipes.length} pipes`,
  ],
  'building.edited': [
    { changes: [{ change: 'remove-pipe', id: 'p9' }], why: 'cut off in 2019' },
    'p9 taken away, cut off in 2019',
  ],
  'device.swept': [{ device: 'spa pool', state: 'absent' }, 'spa pool: absent'],
  'history.recorded': [
    { on: '2026-01-04', until: '2026-01-09', what: 'outage', components: [], text: 'main burst' },
    '2026-01-04 to 2026-01-09, outage: main burst',
  ],
  'prediction.recorded': [prediction, `${prediction.places.length} places, 1 assumption, before the balancing`],
  'fit.accepted': [
    {
      system: id,
      round: 'R2',
      seed: 1,
      level: 0.9,
      readings: 18,
      unexplained: 0,
      inputs: [
        {
          id: 'ambientShiftK',
          words: 'Air',
          unit: 'K',
          parts: [],
          believed: { value: 0, range: { lower: -5, upper: 5 } },
          fitted: { value: 1, range: { lower: 0, upper: 2 } },
        },
      ],
      found: [{ id: 'leg:p1', kind: 'unknown dead leg', words: 'more pipe', parts: ['p1'] }],
      note: 'the return was shut',
    },
    '1 value from 18 readings of round R2, an unknown dead leg taken as given, the return was shut',
  ],
  'procedure.added': [{ procedure: anyProcedure(), reason: 'county rule' }, /, version .+: county rule$/],
  'plan.adopted': [
    { round: 'R1', purpose: 'initial', teams: [], plan },
    `R1, initial, ${plan.stops.length} stops, ${plan.totals.samples} samples`,
  ],
  'instrument.registered': [
    {
      code: 'T1',
      kind: 'thermometer',
      measures: ['hot-temperature'],
      rangeMin: 0,
      rangeMax: 100,
      resolution: 0.1,
      unit: 'Cel',
    },
    'T1, thermometer, 0 to 100 °C',
  ],
  'stop.added': [
    {
      round: 'R1',
      stop: { ...(plan.stops[0] ?? never()), id: 'X1', title: 'Laundry tap' },
      reason: 'found on the way',
    },
    'R1, Laundry tap: found on the way',
  ],
  'stop.started': [stop, 'R1 stop S7'],
  'step.done': [{ ...stop, procedure: 'shower', step: 'swab', seconds: 12 }, 'R1 stop S7: swab, 12 s'],
  'sample.collected': [
    { ...stop, label: 'MH7K2', sampleKind: 'bulk-hot', volumeMl: 1000, filter: 'none' },
    'MH7K2 at R1 stop S7, bulk hot, 1000 mL',
  ],
  'reading.taken': [
    { ...stop, quantity: 'total-chlorine', reading: { kind: 'below', limit: 0.02, unit: 'mg/L' } },
    'R1 stop S7: total chlorine below 0.02 mg/L',
  ],
  'deviation.recorded': [{ ...stop, reason: 'no flow', text: 'valve shut' }, 'R1 stop S7: no flow, valve shut'],
  'photo.taken': [
    { ...stop, sha256: hash, mediaType: 'image/png', bytes: 9, shows: 'shower head' },
    'R1 stop S7: shower head',
  ],
  'stop.finished': [{ ...stop, outcome: 'partly' }, 'R1 stop S7: partly'],
  'consignment.opened': [
    { consignment: 'B1', container: 'cooler', transportC: { lower: 2, upper: 8 } },
    'B1, a cooler, to be kept at 2 to 8 °C',
  ],
  'sample.packed': [{ consignment: 'B1', label: 'MH7K2' }, 'MH7K2 into B1'],
  'sample.unpacked': [{ consignment: 'B1', label: 'MH7K2', reason: 'leaks' }, 'MH7K2 out of B1: leaks'],
  'consignment.sealed': [{ consignment: 'B1', seal: '0042', temperatureC: 5.1 }, 'B1 with seal 0042, 5.1 °C'],
  'seal.opened': [{ consignment: 'B1', by: courier, reason: 'ice added' }, 'B1 by Pell, courier: ice added'],
  'temperature.logged': [{ consignment: 'B1', temperatureC: 6 }, 'B1: 6 °C'],
  'consignment.handed-over': [
    { consignment: 'B1', from: courier, to: lab, sealIntact: false },
    'B1 from Pell to Ash, seal not intact',
  ],
  'consignment.accepted': [
    { consignment: 'B1', handOver: crypto.randomUUID(), by: lab, sealIntact: true, temperatureC: 5 },
    'B1 by Ash, bench, seal intact, 5 °C',
  ],
  'sample.split': [
    { label: 'MH7K2', split: 'OP-1', volumeMl: 400, to: lab, purpose: 'their own culture' },
    '400 mL of MH7K2 as OP-1 for Ash, bench, their own culture',
  ],
  'consignment.received': [
    {
      consignment: 'B1',
      laboratory: 'Quillhaven Water Laboratory',
      receivedBy: lab,
      sealIntact: true,
      samples: [
        { label: 'a', condition: 'accepted' },
        { label: 'b', condition: 'leaking' },
      ],
    },
    'B1 at Quillhaven Water Laboratory by Ash, seal intact, 1 of 2 samples accepted',
  ],
  'results.imported': [
    {
      fileName: 'march.csv',
      sha256: hash,
      laboratory: 'Quillhaven Water Laboratory',
      mapping: { columns: {}, decimal: 'point', dateOrder: 'year-month-day' },
      rows: 3,
      accepted: 2,
      setAside: [{ row: 3, reason: 'no label' }],
    },
    'march.csv of Quillhaven Water Laboratory, 2 of 3 rows accepted, 1 set aside',
  ],
  'sample.registered': [
    { label: 'OLD-1', takenBy: 'water company', draw: 'flushed', collectedOn: '2026-01-05' },
    'OLD-1 by water company, flushed, 2026-01-05',
  ],
  'result.reported': [
    {
      label: 'MH7K2',
      laboratory: 'x',
      method: 'culture',
      target: 'Legionella',
      value: { kind: 'not-detected', volumeMl: 100 },
      status: 'preliminary',
    },
    'MH7K2: Legionella nothing found in 100 mL by culture, preliminary',
  ],
  'isolate.recorded': [
    {
      code: 'I1',
      from: { origin: 'case', caseCode: 'C1' },
      species: 'L. pneumophila',
      serogroup: '1',
      sequenceType: '42',
    },
    'I1 of case C1, L. pneumophila, serogroup 1, sequence type 42',
  ],
  'criteria.chosen': [{ criteria: 'own', version: '1', own: {} }, 'own, version 1, an own set'],
  'finding.concluded': [
    { statement: 'Riser C is colonised', strength: 'moderate', evidence: [], components: [] },
    'Riser C is colonised (moderate)',
  ],
  'measure.ordered': [
    {
      measure: 'flush',
      stage: 'immediate',
      where: 'riser C',
      components: [],
      owner: 'Dune',
      target: { quantity: 'temperature', value: 70, unit: '°C', minutes: 5 },
    },
    'flush (immediate) at riser C, by Dune, target 70 °C for 5 min',
  ],
  'measure.achieved': [
    { measure: id, component: 'shower-101', at: '2026-03-09T10:15:00.000Z', reached: false, by: 'Dune' },
    'shower-101: target not reached, by Dune, 2026-03-09 10:15 UTC',
  ],
  'measure.completed': [{ measure: id, completedOn: '2026-03-09', outcome: 'partly' }, 'partly on 2026-03-09'],
  'follow-up.started': [
    { remediationCompletedOn: '2026-03-10', criteria: 'set-a', version: '2' },
    'remediation completed 2026-03-10, by set-a, version 2',
  ],
  'follow-up.closed': [
    { closedOn: '2026-06-10', ruleMet: false, overrideReason: 'house pulled down' },
    '2026-06-10, rule not met, house pulled down',
  ],
  'follow-up.reopened': [{ reason: 'new case' }, 'new case'],
  'report.written': [{ section: 'limits', text: 'x '.repeat(200) }, /^limits: x .*…$/],
  'report.issued': [
    { variant: 'redacted', headSequence: 80, headHash: hash, sha256: hash, issuedTo: 'the owner' },
    'redacted report to the owner, of the record up to entry 80',
  ],
  'entry.withdrawn': [{}, 'the entry it names no longer counts'],
  'device.joined': [{ name: 'Phone of Vale', role: 'sampler', key: testKey('phone').key }, 'Phone of Vale as sampler'],
  'device.revoked': [{ device: 'phone-1', reason: 'left on a train' }, 'phone-1: left on a train'],
  'entry.contested': [
    {
      entry: entryMaker('marram-house').make('stop.finished', { ...stop, outcome: 'sampled' }),
      issues: [{ path: 'body.outcome', expected: 'x', received: 'y' }],
      against: [id],
    },
    'R. Vale: stop finished, R1 stop S7: sampled',
  ],
  'contest.settled': [
    { contested: id, decision: 'second stands', reason: 'she held it' },
    'second stands: she held it',
  ],
}

function never(): never {
  throw new RangeError('Cannot test a stop because the plan has none')
}

const { make } = entryMaker('marram-house')

test('[REC24] every kind of entry has its line', () => {
  expect(Object.keys(LINES).toSorted()).toEqual(Object.keys(KINDS).toSorted())
})

test.each(Object.entries(LINES))('[REC24] %s reads as one line that says what it holds', (kind, [body, line]) => {
  const schema = KINDS[kind as Kind].body
  expect(schema.safeParse(body).success).toBe(true)
  const words = entryWords(make(kind as Kind, body as never) as Entry)
  expect(words).toMatch(line instanceof RegExp ? line : new RegExp(`^${line.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}$`))
  expect(words.length).toBeLessThanOrEqual(160)
  expect(words).not.toMatch(/[\n\r]|undefined|\[object/)
})
