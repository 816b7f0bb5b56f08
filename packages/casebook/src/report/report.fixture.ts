import { conditionsByHand } from '../conditions/conditions.fixture.ts'
import { predictionOf } from '../conditions/prediction-of.ts'
import { systemEntryOf } from '../conditions/system-entry.ts'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { labelPlan } from '../plan/label-plan.ts'
import { makePlan } from '../plan/make-plan.ts'
import { marramInput, marramSystem } from '../plan/marram-plan.fixture.ts'
import type { Plan, Stop } from '../plan/plan-file.ts'
import { derive } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import type { ResultValue } from '../units/result-value.ts'

export const FIXTURE_ID = 'marram-house'

/** Words that only a private part of the record holds, for tests of the redacted variant. */
export const PRIVATE_WORDS = [
  'Sputum culture kept',
  'Likes long showers',
  'wife of the gardener',
  'T. Okoro',
  'J. Brandt',
  'M. Aydin',
  'R. Vale',
  'Estates office',
  'Okoro',
  'Vale',
  'Brandt',
]
export const CASE_CODES = ['MH-01', 'MH-02', 'MH-03']

/** An invented investigation with something in every section of a report. */
export function reportEntries({ samples = 40, rounds = 2 } = {}): Entry[] {
  const desk = new Desk()
  beginning(desk)
  describing(desk)
  const plans = Array.from({ length: rounds }, (_, index) => round(desk, { number: index + 1, samples }))
  typing(desk, plans[0])
  remedy(desk, plans[0])
  predicting(desk)
  ending(desk)
  return desk.entries
}

export const reportState = (size?: { samples?: number; rounds?: number }): InvestigationState =>
  derive(FIXTURE_ID, reportEntries(size))

class Desk {
  readonly entries: Entry[] = []
  readonly taken = new Set<string>()
  readonly #make = entryMaker(FIXTURE_ID).make

  write<K extends Kind>(kind: K, body: BodyOf<K>, corrects?: { entry: string; reason: string }): Entry {
    const entry = this.#make(kind, body, corrects) as Entry
    this.entries.push(entry)
    return entry
  }
}

function beginning(desk: Desk): void {
  desk.write('investigation.opened', {
    title: 'Marram House',
    locality: 'Quillhaven',
    setting: 'long-term care',
    openedOn: '2026-03-02',
    reason: 'Two residents of one house fell ill within three weeks.',
  })
  const cases = [
    ['MH-01', '2026-02-11', 'confirmed', 'Sputum culture kept', '605'],
    ['MH-02', '2026-02-24', 'probable', 'Likes long showers', '505'],
    ['MH-03', '2026-01-30', 'suspected', 'wife of the gardener', '303'],
  ] as const
  for (const [code, onsetDate, classification, notes, room] of cases) {
    const recorded = desk.write('case.recorded', {
      code,
      onsetDate,
      classification,
      link: 'possible',
      isolate: 'kept',
      notes,
    })
    desk.write('exposure.recorded', {
      caseCode: code,
      place: `Room ${room}`,
      kind: 'stay',
      from: '2026-01-02',
      to: onsetDate,
    })
    desk.write('exposure.recorded', {
      caseCode: code,
      place: 'Hairdresser',
      kind: 'tap',
      from: '2026-01-29',
      to: '2026-01-29',
    })
    if (code === 'MH-02')
      desk.write(
        'case.recorded',
        { code, onsetDate, classification: 'confirmed', link: 'presumptive', isolate: 'kept', notes },
        { entry: recorded.id, reason: 'antigen test of MH-02 reported by R. Vale' },
      )
  }
}

function describing(desk: Desk): void {
  const system = marramSystem()
  const components = system.components.map((one) =>
    one.room === undefined && one.floor !== undefined && /\d{3}$/.test(one.id)
      ? { ...one, room: one.id.slice(-3) }
      : one,
  )
  desk.write('building.described', { source: 'quick description', system: { ...system, components } })
  desk.write('history.recorded', {
    on: '2026-01-19',
    what: 'works',
    components: ['return-pump'],
    text: 'Return pump replaced; J. Brandt opened the valves by feel near room 605.',
  })
  desk.write('device.swept', { device: 'cooling-tower', state: 'absent' })
  desk.write('device.swept', { device: 'ice-machine', state: 'present', place: 'Room 101' })
  desk.write('note.written', { text: 'Who balanced the return?', purpose: 'open question' })
  desk.write('criteria.chosen', { criteria: 'us-cdc', version: CDC_VERSION })
  desk.write('instrument.registered', {
    code: 'T1',
    kind: 'thermometer',
    measures: ['hot-temperature', 'cold-temperature'],
    rangeMin: -20,
    rangeMax: 110,
    resolution: 0.1,
    unit: 'Cel',
    calibratedOn: '2025-10-14',
  })
  desk.write('instrument.registered', {
    code: 'K1',
    kind: 'chlorine kit',
    measures: ['total-chlorine'],
    rangeMin: 0,
    rangeMax: 3.5,
    resolution: 0.1,
    unit: 'mg/L',
  })
}

const CDC_VERSION = '1'

function round(desk: Desk, { number, samples }: { number: number; samples: number }): Plan {
  const made = makePlan(marramInput({ budget: { samples } }))
  const plan = labelPlan({ plan: made, taken: desk.taken, letters: 'MRH' })
  const code = `R${number}`
  desk.write('plan.adopted', {
    round: code,
    purpose: number === 1 ? 'initial' : 'follow-up',
    scheduledOn: '2026-03-04',
    teams: ['Okoro, Vale'],
    plan,
  })
  const labels = plan.stops.flatMap((stop, index) => visit(desk, { stop, code, index }))
  for (const label of labels) desk.taken.add(label)
  carry(desk, { code: `BOX-${number}`, labels })
  for (const stop of plan.stops) report(desk, { stop, number })
  return plan
}

function visit(desk: Desk, { stop, code, index }: { stop: Stop; code: string; index: number }): string[] {
  const at = { round: code, stop: stop.id }
  if (index === 5) return []
  desk.write('stop.started', at)
  const place = stop.component === undefined ? {} : { component: stop.component }
  const labels = stop.samples.flatMap(({ label, sampleKind, circuit }) => {
    if (label === undefined) return []
    desk.write('sample.collected', {
      ...at,
      ...place,
      label,
      sampleKind,
      ...(circuit === undefined ? {} : { circuit }),
      filter: 'none',
      volumeMl: 1000,
      ...(sampleKind === 'bulk-hot'
        ? { neutralizer: { solutionNormality: 0.1, solutionVolumeMl: index % 3 === 0 ? 0.2 : 0.5 } }
        : {}),
    })
    return [label]
  })
  const hotC = stop.riser === 'C' ? 46.2 : 55.4
  desk.write('reading.taken', {
    ...at,
    ...place,
    quantity: 'hot-temperature',
    reading: { kind: 'value', value: hotC, unit: 'Cel' },
    curve: {
      points: [
        { seconds: 0, temperatureC: 24 },
        { seconds: 70, temperatureC: hotC },
      ],
      steady: { fromSeconds: 70, toSeconds: 90, temperatureC: hotC },
    },
    instrument: 'T1',
  })
  desk.write('reading.taken', {
    ...at,
    ...place,
    quantity: 'total-chlorine',
    reading:
      index % 4 === 0 ? { kind: 'below', limit: 0.1, unit: 'mg/L' } : { kind: 'value', value: 1.2, unit: 'mg/L' },
    instrument: 'K1',
  })
  if (index % 9 === 2)
    desk.write('deviation.recorded', {
      ...at,
      step: 'first-flush',
      reason: 'already running on arrival',
      text: 'The resident of MH-01, room 605, had just washed; T. Okoro waited.',
    })
  desk.write(
    'stop.finished',
    index === 7 ? { ...at, outcome: 'partly', reason: 'The wall box was locked.' } : { ...at, outcome: 'sampled' },
  )
  return labels
}

function carry(desk: Desk, { code, labels }: { code: string; labels: readonly string[] }): void {
  const [sampler, courier] = [
    { name: 'T. Okoro', role: 'sampler' },
    { name: 'J. Brandt', role: 'courier' },
  ]
  desk.write('consignment.opened', { consignment: code, container: 'cooler', transportC: { lower: 2, upper: 8 } })
  for (const label of labels) desk.write('sample.packed', { consignment: code, label })
  desk.write('temperature.logged', { consignment: code, temperatureC: 9.4, where: 'between the bottles' })
  desk.write('consignment.sealed', { consignment: code, seal: `SEAL-${code}`, temperatureC: 5.9 })
  desk.write('consignment.handed-over', {
    consignment: code,
    from: sampler,
    to: courier,
    sealIntact: true,
    temperatureC: 5.6,
  })
  desk.write('consignment.received', {
    consignment: code,
    laboratory: 'Quillhaven Water Laboratory',
    receivedBy: { name: 'M. Aydin', role: 'laboratory reception' },
    sealIntact: true,
    temperatureC: 6.1,
    samples: labels.map((label, index) => ({ label, condition: index === 3 ? 'too warm' : 'accepted' })),
  })
}

const LABORATORY = 'Quillhaven Water Laboratory'

function report(desk: Desk, { stop, number }: { stop: Stop; number: number }): void {
  for (const [index, { label, sampleKind }] of stop.samples.entries()) {
    if (label === undefined) continue
    const grows = number === 1 && stop.riser === 'C' && (stop.floor ?? 0) > 2
    const swab = sampleKind === 'first-flush-swab'
    const value: ResultValue = grows
      ? swab
        ? { kind: 'detected' }
        : { kind: 'count', value: 12.5 + (stop.floor ?? 0), unit: 'CFU/mL' }
      : swab || sampleKind === 'field-blank'
        ? { kind: 'not-detected' }
        : index === 1 && stop.floor === 1
          ? { kind: 'overgrown' }
          : { kind: 'below', limit: 0.05, unit: 'CFU/mL' }
    desk.write('result.reported', {
      label,
      laboratory: LABORATORY,
      method: 'culture',
      target: 'Legionella',
      value,
      status: 'final',
      reportedOn: '2026-03-14',
      ...(grows ? { species: 'L. pneumophila', serogroup: '1' } : {}),
      ...(swab ? {} : { volumeExaminedMl: 20 }),
    })
  }
}

function typing(desk: Desk, plan: Plan | undefined): void {
  const label = plan?.stops.find(({ riser, floor }) => riser === 'C' && (floor ?? 0) > 2)?.samples[0]?.label ?? ''
  const typed = { species: 'L. pneumophila', serogroup: '1', laboratory: LABORATORY }
  desk.write('isolate.recorded', {
    code: 'I-MH-01',
    from: { origin: 'case', caseCode: 'MH-01' },
    ...typed,
    sequenceType: '9901',
  })
  desk.write('isolate.recorded', { code: 'I-MH-02', from: { origin: 'case', caseCode: 'MH-02' }, ...typed })
  desk.write('isolate.recorded', { code: 'I-605', from: { origin: 'sample', label }, ...typed, sequenceType: '9901' })
  desk.write('finding.concluded', {
    statement: 'The hot water of riser C is colonised from the third floor up; MH-01 in room 605 used it.',
    strength: 'moderate',
    evidence: [
      { ref: label, words: 'Detected at the first shower above.', speaks: 'for' },
      { ref: 'I-605', words: 'Same sequence type as the isolate of MH-01.', speaks: 'for' },
    ],
    wouldChangeIt: 'Another building with the same type.',
    components: [],
  })
}

function remedy(desk: Desk, plan: Plan | undefined): void {
  const places = (plan?.stops ?? []).flatMap(({ component, riser }) =>
    component !== undefined && riser === 'C' ? [component] : [],
  )
  const ordered = desk.write('measure.ordered', {
    measure: 'heat disinfection',
    stage: 'remediation',
    where: 'riser C, hot',
    components: places,
    owner: 'Estates office',
    dueOn: '2026-03-20',
    target: { quantity: 'temperature', value: 70, unit: '°C', minutes: 30 },
  })
  for (const [index, component] of places.entries())
    if (index !== 1)
      desk.write('measure.achieved', {
        measure: ordered.id,
        component,
        at: '2026-03-18T07:30:00.000Z',
        achieved: { quantity: 'temperature', value: 71.5, unit: '°C', minutes: 31 },
        reached: true,
        by: 'T. Okoro',
      })
  desk.write('measure.completed', {
    measure: ordered.id,
    completedOn: '2026-03-18',
    outcome: 'partly',
    reason: 'One shower could not be reached.',
  })
  desk.write('follow-up.started', { remediationCompletedOn: '2026-03-18', criteria: 'us-cdc', version: CDC_VERSION })
}

/** Conditions set by hand: the fixture shows the section, it does not simulate. */
function predicting(desk: Desk): void {
  const state = derive(FIXTURE_ID, desk.entries)
  const { system } = state.building
  if (system === undefined) throw new TypeError('no building')
  const conditions = conditionsByHand(system, {
    'basin-tap-b403/cold': { temperatureC: [24.4, 21, 27] },
    'shower-c605/hot': { temperatureC: [36, 24, 41], band: 20, growth: 0.8 },
    'kitchen-tap-d307/hot': { temperatureC: 22, ageHours: 720, standing: 24, neverMoves: true, residualMgPerL: 0 },
    'heater-1': { temperatureC: [59, 55, 60] },
  })
  const cannotSay = [{ at: 'ice-machine-a101', why: 'nothing is known of its hose', needs: 'its length' }]
  const systemEntry = systemEntryOf(state.record) ?? ''
  desk.write(
    'prediction.recorded',
    predictionOf({ system, systemEntry, conditions: { ...conditions, cannotSay }, note: 'J. Brandt asked for it.' }),
  )
}

function ending(desk: Desk): void {
  desk.write('calculation.recorded', {
    id: 'shock-dose',
    input: { waterVolumeL: 2600 },
    result: { litres: 1.1 },
    working: 'Water 2600 L, target 50 mg/L.\n\nResult\n- 1.1 L, as R. Vale worked it out',
  })
  const slip = desk.write('note.written', { text: 'Entered in the wrong file.', purpose: 'note' })
  desk.write('entry.withdrawn', {}, { entry: slip.id, reason: 'entered in the wrong investigation' })
  desk.write('report.written', {
    section: 'summary',
    text: 'Riser C grew Legionella. MH-01 and MH-02 lived on it, in Room 605 and flat 12; onset of MH-01 was 2026-02-11.\n\nVale and T. Okoro took the samples.',
  })
  desk.write('report.written', { section: 'limits', text: 'The cold side of riser B was sampled once only.' })
  desk.write('report.written', {
    section: 'recommendations',
    text: 'Balance the return valves and prove 55 °C at every return before the next round.',
  })
}
