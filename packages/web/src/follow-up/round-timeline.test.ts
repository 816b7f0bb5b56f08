import { roundWriter } from '@rillmark/casebook/follow-up/follow-up.fixture.ts'
import { followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { expect, test } from 'vitest'
import { roundTimeline } from './round-timeline.ts'

const write = roundWriter()
const timeline = (...entries: Parameters<typeof derive>[1][]) =>
  roundTimeline(
    followUpView(
      derive(
        'marram-house',
        entries.flatMap((some) => [...some]),
      ),
      '2026-11-15',
    ),
  )

test('draws from the start of the clock to the end of the last window, months across the turn of the year', () => {
  const model = timeline([write.started('2026-10-31')])
  expect(model?.from).toBe('2026-10-31')
  expect(model?.starts).toEqual([{ on: '2026-10-31', words: 'remediated' }])
  expect(model?.months.map(({ name }) => name)).toEqual(['Nov', 'Dec', 'Jan 2027', 'Feb', 'Mar', 'Apr', 'May'])
  expect(model?.marks.length).toBe(9)
})

test('a positive stands where it was sampled, and the clock restarts there', () => {
  const model = timeline(
    [write.started('2026-10-31')],
    write.round('2026-11-14', { code: 'R2', value: { kind: 'detected' } }),
  )
  expect(model?.marks.find(({ state }) => state === 'positive')).toMatchObject({
    on: '2026-11-14',
    kind: 'not counted',
  })
  expect(model?.starts).toEqual([
    { on: '2026-10-31', words: 'remediated' },
    { on: '2026-11-14', words: 'restart: positive' },
  ])
})

test('nothing is drawn before follow-up starts', () => {
  expect(timeline([])).toBeUndefined()
})
