import { expect, test } from 'vitest'
import type { PlannedSample, Stop } from '../plan/plan-file.ts'
import { qualityOwed } from './quality.ts'
import { fieldDesk, LABELS, STOPS } from './visit.fixture.ts'

const LITRE: PlannedSample = { sampleKind: 'bulk-hot', procedure: 'tap', circuit: 'hot' }
const added = (id: string, samples: PlannedSample[]): Stop => ({ ...(STOPS[2] as Stop), id, title: id, samples })
const litres = (count: number) => Array.from({ length: count }, () => LITRE)

// One blank and one duplicate for every 20 samples, blanks from 5 samples on: reference/plan/planning.json. The fixture plans 3 and a blank.
test.each([
  { more: 0, samples: 3, blanksOwed: 0, duplicatesOwed: 0 },
  { more: 6, samples: 9, blanksOwed: 0, duplicatesOwed: 0 },
  { more: 7, samples: 10, blanksOwed: 0, duplicatesOwed: 1 },
  { more: 17, samples: 20, blanksOwed: 0, duplicatesOwed: 1 },
  { more: 18, samples: 21, blanksOwed: 1, duplicatesOwed: 1 },
])('[FLD29] $samples samples owe $blanksOwed blanks and $duplicatesOwed duplicates', ({ more, ...want }) => {
  const desk = fieldDesk()
  if (more > 0)
    desk.write('stop.added', {
      round: 'R1',
      stop: added('added-1', litres(more)),
      reason: 'the cleaner remembered them',
    })
  expect(qualityOwed(desk.state, 'R1')).toMatchObject({ ...want, blanks: 1, duplicates: 0 })
})

test('[FLD29] a blank that was given up is owed again, one added on the spot pays it', () => {
  const desk = fieldDesk()
  desk.write('stop.added', { round: 'R1', stop: added('added-1', litres(4)), reason: 'asked for' })
  const blank = { round: 'R1', stop: 'S3' }
  desk.write('deviation.recorded', {
    ...blank,
    label: LABELS[3] ?? '',
    leftOut: true,
    reason: 'other',
    text: 'no sterile water',
  })
  desk.write('stop.finished', { ...blank, outcome: 'not possible', reason: 'no sterile water' })
  expect(qualityOwed(desk.state, 'R1')).toMatchObject({ samples: 7, blanks: 0, blanksOwed: 1 })
  const again = added('added-2', [{ sampleKind: 'field-blank', procedure: 'field-blank' }])
  desk.write('stop.added', { round: 'R1', stop: again, reason: 'sterile water came' })
  expect(qualityOwed(desk.state, 'R1')).toMatchObject({ blanks: 1, blanksOwed: 0 })
})
