import { addDays } from '@rillmark/science/calendar/iso-date.ts'
import { exposureInput } from '@rillmark/science/incubation/exposure-fields.ts'
import { exposureTime } from '@rillmark/science/incubation/exposure-time.ts'
import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { aCase, threeCases } from '../testing/three-cases.ts'
import { likelyExposure } from './likely-exposure.ts'

const after = (...days: number[]) =>
  derive(
    'marram-house',
    days.map((each, index) => aCase(`C${index + 1}`, addDays('2026-02-01', each))),
  ).cases

test('[CAS10] two known onsets give no time; three do, the same as the calculation opened with them', () => {
  expect(likelyExposure(threeCases)).toBeUndefined()
  const likely = likelyExposure(after(0, 2, 5))
  expect(likely).toMatchObject({ cases: 3, apartDays: 5, fits: 'yes', level: 0.95 })
  const reckoned = exposureTime(exposureInput.parse(likely?.input))
  expect(likely?.day).toBe(reckoned.mostLikelyDay)
  expect((likely?.from ?? '') <= reckoned.mostLikelyDay && reckoned.mostLikelyDay <= (likely?.to ?? '')).toBe(true)
  expect(reckoned.models).toHaveLength(3)
})

test('[CAS10] onsets too far apart for one time are said to be so', () => {
  expect(likelyExposure(after(0, 1, 45))).toMatchObject({ fits: 'no', apartDays: 45 })
})

test('[CAS10] someone who is not a case does not count', () => {
  const { make } = entryMaker('marram-house')
  const { cases } = derive('marram-house', [
    aCase('C1', '2026-02-01'),
    aCase('C2', '2026-02-03'),
    make('case.recorded', {
      code: 'C3',
      onsetDate: '2026-02-04',
      classification: 'not a case',
      link: 'not judged',
      isolate: 'not known',
    }),
  ])
  expect(likelyExposure(cases)).toBeUndefined()
})
