import { beforeEach, describe, expect, it, test } from 'vitest'
import { deviationsOf } from './deviations.ts'
import { neutralizerCheck, neutralizerOf, prescribedDose, residualExpected } from './neutralizer-check.ts'
import { instrumentsFor } from './instruments.ts'
import { nextStop, roundProgress } from './round-progress.ts'
import { visitPlan } from './visit-plan.ts'
import { PROCEDURES } from '../procedures/procedures.ts'
import { FINE_KIT, fieldDesk, HEATER, LABELS, POOL_KIT, SHOWER, STOPS, THERMOMETER } from './visit.fixture.ts'

const [swab = '', bulk = '', drain = ''] = LABELS
let desk = fieldDesk()
const plan = (author?: string) => {
  const found = visitPlan({ ...SHOWER, state: desk.state, ...(author === undefined ? {} : { author }) })
  if (found === undefined) throw new Error('the stop is not known')
  return found
}
const sample = (label: string, sampleKind: 'first-flush-swab' | 'bulk-hot') =>
  desk.write('sample.collected', { ...SHOWER, label, sampleKind, filter: 'none' })

beforeEach(() => {
  desk = fieldDesk()
  for (const instrument of [THERMOMETER, FINE_KIT, POOL_KIT]) desk.write('instrument.registered', instrument)
})

describe('the guided steps of a stop', () => {
  test('[FLD15] run over its procedures: caution, first flush and swab, bulk, readings, hot last; each its own step', () => {
    expect(plan().steps.map(({ procedure, name }) => `${procedure} ${name}`)).toEqual([
      'shower who',
      'shower ask',
      'shower swab-neutralizer',
      'shower first-water',
      'shower open-head',
      'shower swab',
      'shower label-swab',
      'shower bulk-neutralizer',
      'shower run',
      'shower bulk',
      'shower label-bulk',
      'shower residual-ph:residual',
      'shower residual-ph:ph',
      'cold-readings cold:temperature-curve-cold',
      'cold-readings residual-ph:residual',
      'cold-readings residual-ph:ph',
      'shower hot:temperature-curve-hot',
    ])
    expect(plan().steps.find(({ quantity }) => quantity === 'total-chlorine')?.title).toBe('Total chlorine, hot water')
  })

  test('[FLD16] one step is at hand; done, left out and refused ones say so', () => {
    expect(plan().current?.name).toBe('who')
    for (const step of ['who', 'ask', 'swab-neutralizer', 'first-water'])
      desk.write('step.done', { ...SHOWER, procedure: 'shower', step })
    expect(plan().current?.name).toBe('open-head')
    expect(plan().steps.at(-1)?.refused).toBe(`first flush + biofilm swab ${swab}, bulk hot ${bulk} still to be taken`)
    sample(swab, 'first-flush-swab')
    expect(plan().current?.name).toBe('bulk-neutralizer')
    desk.write('deviation.recorded', {
      ...SHOWER,
      reason: 'no flow',
      procedure: 'shower',
      step: 'run',
      label: bulk,
      leftOut: true,
    })
    expect(
      plan()
        .steps.filter(({ state }) => state === 'left out')
        .map(({ name }) => name),
    ).toEqual(['bulk-neutralizer', 'run', 'bulk', 'label-bulk'])
    expect(plan().current?.name).toBe('residual-ph:residual')
    expect(plan().outcome).toBe('partly')
  })

  test('[FLD16] water that ran before the first flush refuses it until the departure is recorded', () => {
    desk.write('step.done', { ...SHOWER, procedure: 'shower', step: 'run' })
    const first = () => plan().steps.find(({ name }) => name === 'first-water')?.refused
    expect(first()).toBe('the step "run" ran the water')
    desk.write('deviation.recorded', { ...SHOWER, reason: 'out of order' })
    expect(first()).toBeUndefined()
  })

  test('[FLD17] who should not sample is said to each person once a round, the hazards of a plant every time', () => {
    desk.write('step.done', { ...SHOWER, procedure: 'shower', step: 'who' })
    const names = (author: string) =>
      visitPlan({ ...HEATER, state: desk.state, author })
        ?.steps.filter(({ state }) => state !== 'done')
        .map(({ name }) => name)
    expect(names('R. Vale')?.slice(0, 2)).toEqual(['plant', 'gauges'])
    expect(names('T. Okoro')?.slice(0, 2)).toEqual(['who', 'plant'])
  })

  test('[FLD16] a reading settles the step of its own water only', () => {
    sample(swab, 'first-flush-swab')
    sample(bulk, 'bulk-hot')
    desk.write('reading.taken', {
      ...SHOWER,
      quantity: 'total-chlorine',
      circuit: 'cold',
      reading: { kind: 'value', value: 1.6, unit: 'mg/L' },
      instrument: 'K1',
    })
    const residuals = plan().steps.filter(({ quantity }) => quantity === 'total-chlorine')
    expect(residuals.map(({ circuit, state }) => [circuit, state])).toEqual([
      ['hot', 'ahead'],
      ['cold', 'done'],
    ])
  })
})

describe('[FLD18] the neutralizer against the measured residual', () => {
  const dose = { solutionNormality: 0.1, solutionVolumeMl: 0.5 }
  const check = (residual: Parameters<typeof neutralizerCheck>[0]['residual'], expiresOn?: string) =>
    neutralizerCheck({
      dose: expiresOn === undefined ? dose : { ...dose, expiresOn },
      sampleVolumeMl: 1000,
      residual,
      residualKind: 'total-chlorine',
      on: '2026-03-04',
    })
  it.each([
    [{ kind: 'value', value: 1.7, unit: 'mg/L' }, 'covered'],
    [{ kind: 'value', value: 1.8, unit: 'mg/L' }, 'short'],
    [{ kind: 'below', limit: 0.1, unit: 'mg/L' }, 'covered'],
    [{ kind: 'below', limit: 2, unit: 'mg/L' }, 'not known'],
    [{ kind: 'above', limit: 3.5, unit: 'mg/L' }, 'short'],
    [{ kind: 'above', limit: 1, unit: 'mg/L' }, 'not known'],
    [undefined, 'not known'],
  ] as const)('%o is %s', (residual, covers) => expect(check(residual).covers).toBe(covers))

  it('a lot holds on its last day and no longer', () => {
    expect(check(undefined, '2026-03-04').expired).toBe(false)
    expect(check(undefined, '2026-03-03').expired).toBe(true)
  })

  it('takes the residual of the sample’s own stop, and expects the highest of the round elsewhere', () => {
    expect(residualExpected(desk.state, 'R1')).toEqual({ mgPerL: 1.9, from: 'described supply' })
    desk.write('sample.collected', {
      ...HEATER,
      label: drain,
      sampleKind: 'heater-drain',
      volumeMl: 1000,
      filter: 'none',
      neutralizer: dose,
    })
    expect(neutralizerOf(desk.state, drain)?.covers).toBe('not known')
    desk.write('reading.taken', {
      ...HEATER,
      quantity: 'total-chlorine',
      reading: { kind: 'value', value: 2.4, unit: 'mg/L' },
      instrument: 'K1',
    })
    expect(neutralizerOf(desk.state, drain)).toMatchObject({ covers: 'short', expired: false })
    expect(residualExpected(desk.state, 'R1')).toEqual({ mgPerL: 2.4, from: 'measured in this round' })
  })

  it('the prescribed dose grows with the volume', () =>
    expect(PROCEDURES.filter(({ id }) => id === 'tap').map((tap) => prescribedDose(tap, 500))).toEqual([
      { solutionNormality: 0.1, solutionVolumeMl: 0.25 },
    ]))
})

test('[FLD21] progress counts stops and samples; a stop already begun comes next, then the walking order', () => {
  const progress = () => roundProgress(desk.state, { round: 'R1' })
  expect(progress()).toMatchObject({ finished: 0, collected: 0, planned: 4 })
  expect(progress().next?.stop.id).toBe('S1')
  desk.write('stop.started', HEATER)
  expect(progress().next?.stop.id).toBe('S2')
  expect(nextStop(progress().stops, { after: 'S2' })?.stop.id).toBe('S3')
  expect(nextStop(progress().stops, { after: 'S3' })?.stop.id).toBe('S1')
  desk.write('stop.finished', { ...HEATER, outcome: 'not possible', reason: 'locked' })
  expect(progress().next?.stop.id).toBe('S1')
  expect(progress().stops.map(({ state }) => state)).toEqual(['ahead', 'not possible', 'ahead'])
})

test('[FLD22] deviations are listed with place, step and reason, stops not wholly done among them', () => {
  desk.write('deviation.recorded', {
    ...SHOWER,
    procedure: 'shower',
    step: 'open-head',
    reason: 'fitting could not be removed',
    leftOut: true,
  })
  desk.write('stop.finished', { ...HEATER, outcome: 'not possible', reason: 'locked' })
  expect(deviationsOf(desk.state, 'R1')).toMatchObject([
    { stopTitle: STOPS[0]?.title, step: 'Take off the head', reason: 'fitting could not be removed', leftOut: true },
    { stopTitle: 'Heater 1', reason: 'not possible', text: 'locked' },
  ])
  expect(deviationsOf(desk.state, 'R2')).toEqual([])
})

test('[FLD23] instruments are offered by what they measure, those with something against them last and with the reason', () => {
  desk.write('instrument.registered', { ...THERMOMETER, code: 'A1', calibrationDue: '2026-01-01' })
  const offer = (quantity: 'total-chlorine' | 'hot-temperature' | 'ph') =>
    instrumentsFor(desk.state, { quantity, on: '2026-03-04' }).map(({ instrument, against }) => [
      instrument.code,
      against,
    ])
  expect(offer('ph')).toEqual([])
  expect(offer('total-chlorine')).toEqual([
    ['K1', undefined],
    ['K2', "a pool-type kit: steps of 0.5 mg/L can't tell a residual below 2 mg/L"],
  ])
  expect(offer('hot-temperature')).toEqual([
    ['T1', undefined],
    ['A1', 'calibration was due on 2026-01-01'],
  ])
})
