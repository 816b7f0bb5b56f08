import { HEATER, fieldDesk, SHOWER } from '@rillmark/casebook/fieldwork/visit.fixture.ts'
import { visitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { expect, test } from 'vitest'
import { noteOffered } from './note-offered.ts'

const BLANK = { round: 'R1', stop: 'S3' } as const

function offered(desk: ReturnType<typeof fieldDesk>, device = 'desk-1'): string {
  const plan = visitPlan({ ...BLANK, state: desk.state })
  const step = plan?.steps.find((one) => one.step.kind === 'note')
  if (plan === undefined || step === undefined) throw new Error('the blank has no note')
  return noteOffered(desk.state, { step, plan, round: 'R1', device })
}

test('a blank is offered the stop this phone was at last, not one of another', () => {
  const desk = fieldDesk()
  expect(offered(desk)).toBe('')
  desk.write('stop.started', HEATER)
  desk.write('stop.started', BLANK)
  desk.writeBy(
    { device: 'phone-2', author: 'T. Okoro', startAt: '2026-03-02T10:00:00.000Z' },
    { kind: 'stop.started', body: SHOWER },
  )
  expect(offered(desk)).toBe('Opened at Heater 1. Lot of the sterile water: ')
  expect(offered(desk, 'phone-2')).toBe('Opened at Room 304, shower. Lot of the sterile water: ')
})

test('other notes are left to the person', () => {
  const desk = fieldDesk()
  const plan = visitPlan({ ...SHOWER, state: desk.state })
  const step = plan?.steps.find((one) => one.step.kind === 'note')
  if (plan === undefined || step === undefined) throw new Error('the shower asks nothing')
  expect(noteOffered(desk.state, { step, plan, round: 'R1', device: 'desk-1' })).toBe('')
})
