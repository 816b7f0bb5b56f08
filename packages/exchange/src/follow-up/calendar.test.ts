import { roundWriter } from '@rillmark/casebook/follow-up/follow-up.fixture.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { expect, test } from 'vitest'
import { followUpCalendar } from './calendar.ts'

const write = roundWriter()

test('without a follow-up there is no calendar, and the reason is said', () => {
  expect(followUpCalendar(derive('marram-house', []))).toMatchObject({ issues: [{ path: 'follow-up' }] })
  expect(followUpCalendar(derive('marram-house', [write.adopted('R1')]))).toMatchObject({
    issues: [{ path: 'follow-up' }],
  })
})

test('once closed, only the rounds that were taken are left', () => {
  const closed = write.on('2026-09-01')('follow-up.closed', {
    closedOn: '2026-09-01',
    ruleMet: false,
    overrideReason: 'demolished',
  })
  const begun = [write.started('2026-01-31'), ...write.round('2026-02-14', { code: 'R2' })]
  const events = (entries: typeof begun) =>
    String(followUpCalendar(derive('marram-house', entries)))
      .replaceAll('\r\n ', '')
      .match(/SUMMARY:.*/g)
  expect(events(begun)?.length).toBe(9)
  expect(events([...begun, closed])).toEqual([
    'SUMMARY:marram-house: follow-up round 1\\, sampled\\, awaiting the laboratory',
  ])
})
