import { expect, test } from 'vitest'
import { nextStop, roundProgress } from './round-progress.ts'
import { teamView } from './team-view.ts'
import { fieldDesk, HEATER, LABELS, SHOWER, THERMOMETER } from './visit.fixture.ts'

const [swab = ''] = LABELS
const OKORO = { device: 'phone-2', author: 'T. Okoro', startAt: '2026-03-02T09:00:00.000Z' }

/** The desk begins the heater, the phone does the shower; then the desk takes a photo at the shower. */
function twoHands() {
  const desk = fieldDesk()
  desk.write('instrument.registered', THERMOMETER)
  desk.write('stop.started', HEATER)
  desk.writeBy(OKORO, { kind: 'stop.started', body: SHOWER })
  desk.writeBy(OKORO, {
    kind: 'sample.collected',
    body: { ...SHOWER, label: swab, sampleKind: 'first-flush-swab', filter: 'none' },
  })
  desk.writeBy(OKORO, {
    kind: 'reading.taken',
    body: {
      ...SHOWER,
      quantity: 'cold-temperature',
      circuit: 'cold',
      reading: { kind: 'value', value: 12, unit: 'Cel' },
    },
  })
  return desk
}

test('[FLD26] work is told by person and device, with its times and what was written', () => {
  const { hands, underWay, shared } = teamView(twoHands().state, 'R1')
  expect(hands.map(({ hand, work }) => [hand.author, work.map(({ title }) => title)])).toEqual([
    ['T. Okoro', ['Room 304, shower']],
    ['R. Vale', ['Heater 1']],
  ])
  expect(hands[0]?.work[0]).toMatchObject({
    samples: 1,
    readings: 1,
    deviations: 0,
    photos: 0,
    from: '2026-03-02T09:01:00.000Z',
    to: '2026-03-02T09:03:00.000Z',
  })
  expect(underWay.map(({ title, hand }) => [title, hand.author])).toEqual([
    ['Heater 1', 'R. Vale'],
    ['Room 304, shower', 'T. Okoro'],
  ])
  expect(shared).toEqual([])
})

test('[FLD26] a stop where two wrote is named with both, a finished one is no longer under way', () => {
  const desk = twoHands()
  desk.write('deviation.recorded', { ...SHOWER, reason: 'other', text: 'helped with the hose' })
  desk.write('stop.finished', { ...HEATER, outcome: 'not possible', reason: 'locked' })
  const { underWay, shared } = teamView(desk.state, 'R1')
  expect(shared.map(({ title, hands }) => [title, hands.map(({ author }) => author)])).toEqual([
    ['Room 304, shower', ['R. Vale', 'T. Okoro']],
  ])
  expect(underWay.map(({ title }) => title)).toEqual(['Room 304, shower'])
})

test('[FLD26] a stop nobody was at has no hand', () => {
  expect(teamView(fieldDesk().state, 'R1')).toEqual({ hands: [], underWay: [], shared: [] })
})

test('[FLD27] a stop another device is at is left to it; one begun here comes first', () => {
  const { state } = twoHands()
  const next = (device: string) => roundProgress(state, { round: 'R1', device }).next?.stop.id
  expect([next('desk-1'), next('phone-2'), next('phone-3')]).toEqual(['S2', 'S1', 'S3'])
  const { stops } = roundProgress(state, { round: 'R1' })
  expect(nextStop(stops, { after: 'S3', device: 'phone-3' })).toBeUndefined()
  expect(nextStop(stops, { after: 'S3' })?.stop.id).toBe('S1')
})
