import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { byOneClock, byRightClock, clockAheadS } from './clock.ts'
import { entriesOf } from './entries-of.ts'
import { emptyHead, linkEntries } from './link.ts'
import { verifyChain } from './verify.ts'

const RECEIVED = '2026-03-02T12:00:00.000Z'
const at = (seconds: number): string => new Date(Date.parse(RECEIVED) + seconds * 1000).toISOString()
const DAY = 86_400

test.each([
  { name: 'right', deviceNow: at(0), latest: at(-10), want: undefined },
  { name: 'less than a minute ahead', deviceNow: at(59), latest: at(40), want: undefined },
  { name: 'a minute ahead', deviceNow: at(60), latest: at(40), want: 60 },
  { name: 'a day ahead', deviceNow: at(DAY), latest: at(DAY - 100), want: DAY },
  { name: 'three hours behind', deviceNow: at(-10_800), latest: at(-10_900), want: -10_800 },
  { name: 'set right after the entries were written a day ahead', deviceNow: at(0), latest: at(DAY), want: DAY },
  { name: 'measured almost as the last time', deviceNow: at(DAY + 4), latest: at(DAY), before: DAY, want: DAY },
  {
    name: 'measured otherwise than the last time',
    deviceNow: at(DAY + 6),
    latest: at(DAY),
    before: DAY,
    want: DAY + 6,
  },
  { name: 'not told', deviceNow: undefined, latest: at(DAY), want: undefined },
])('[CLK1] a clock $name: $want seconds ahead', ({ deviceNow, latest, before, want }) => {
  expect(clockAheadS({ deviceNow, received: RECEIVED, latest, before })).toBe(want)
})

test('[CLK4] what one setting of a clock wrote ends where an instant goes back by a minute or more, and says its latest', () => {
  const written = (...seconds: number[]) => seconds.map((s) => ({ instant: at(s) }))
  const entries = written(DAY, DAY + 70, DAY + 20, DAY + 300, 60, 90)
  expect(byOneClock(entries)).toEqual({ run: entries.slice(0, 4), latest: at(DAY + 300) })
  expect(byOneClock(entries.slice(4))).toEqual({ run: entries.slice(4), latest: at(90) })
  expect(byOneClock([])).toEqual({ run: [], latest: '' })
})

const { make } = entryMaker('marram-house')
const reading = make('reading.taken', {
  round: 'R1',
  stop: 'S7',
  quantity: 'hot-temperature',
  reading: { kind: 'value', value: 52, unit: 'Cel' },
  takenAt: at(5),
})

test('[CLK2] instants and the times in a body are moved, nothing else is', () => {
  const moved = byRightClock(reading, 3600)
  expect(moved).toEqual({
    ...reading,
    instant: new Date(Date.parse(reading.instant) - 3_600_000).toISOString(),
    body: { ...reading.body, takenAt: at(5 - 3600) },
  })
  expect(byRightClock(reading, undefined)).toBe(reading)
  const note = make('note.written', { text: 'x', purpose: 'note' })
  expect(byRightClock(note, -60)).toEqual({
    ...note,
    instant: new Date(Date.parse(note.instant) + 60_000).toISOString(),
  })
})

test('[CLK2] a time that a person typed, to the minute, is not of the device’s clock and stays; one the clock filled in is moved', () => {
  const sealed = (time: string) =>
    make('consignment.sealed', { consignment: 'Box 1', seal: '0451', at: time }) as Entry & { body: { at: string } }
  expect(byRightClock(sealed('2026-03-02T11:40:00.000Z'), DAY).body.at).toBe('2026-03-02T11:40:00.000Z')
  expect(byRightClock(sealed('2026-03-02T11:40:07.312Z'), DAY).body.at).toBe('2026-03-01T11:40:07.312Z')
})

test('[CLK2] no clock moves an entry out of the years the record knows', () => {
  expect(byRightClock({ ...reading, instant: '1900-01-01T00:00:00.000Z' }, DAY).instant).toBe(
    '1900-01-01T00:00:00.000Z',
  )
  expect(byRightClock({ ...reading, body: { takenAt: 'x' } } as unknown as Entry, DAY).body).toEqual({ takenAt: 'x' })
})

test('[CLK2] order and durations by devices whose clocks are measured as wrong by any amount are those of right clocks', () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ afterS: fc.integer({ min: 1, max: 7200 }), device: fc.nat({ max: 2 }) }), { minLength: 2 }),
      fc.array(
        // less than a minute counts as right
        fc.integer({ min: -10 * DAY, max: 10 * DAY }).filter((s) => s === 0 || Math.abs(s) >= 60),
        { minLength: 3, maxLength: 3 },
      ),
      (steps, clocks) => {
        const makers = [0, 1, 2].map((n) => entryMaker('marram-house', { device: `phone-${n}` }))
        let trueS = 0
        const written = steps.flatMap(({ afterS, device }) => {
          trueS += afterS
          const note = makers[device]?.make('note.written', { text: `${trueS}`, purpose: 'note' })
          const ahead = clocks[device] ?? 0
          return note === undefined ? [] : [{ entry: { ...note, instant: at(trueS + ahead) }, trueS }]
        })
        const entries = written.map(({ entry }) => entry)
        // all come together an hour later; what is found is what the device's clock and its entries show
        const received = at(trueS + 3600)
        const found = clocks.map((ahead, n) => {
          const { latest } = byOneClock(entries.filter(({ device }) => device === `phone-${n}`))
          if (latest === '') return undefined
          return clockAheadS({ deviceNow: at(trueS + 3600 + ahead), received, latest })
        })
        const ahead = ({ device }: { device: string }) => found[Number(device.slice(-1))]
        const links = linkEntries(emptyHead('marram-house'), { entries, received, ahead })
        expect(entriesOf(links).map(({ instant }) => instant)).toEqual(written.map((each) => at(each.trueS)))
        expect(links.map(({ entry }) => entry)).toEqual(written.map(({ entry }) => entry))
        expect(verifyChain(links, { investigation: 'marram-house' })).toMatchObject({ sound: true })
        expect(derive('marram-house', entriesOf(links)).brief.notes).toHaveLength(written.length)
      },
    ),
    { numRuns: 60 },
  )
})

test('[CLK3] what was found of a clock is part of the chain: altered, taken out or put in, the link is broken', () => {
  const entries = [make('note.written', { text: 'x', purpose: 'note' })]
  const [link] = linkEntries(emptyHead('marram-house'), { entries, received: RECEIVED, ahead: () => 3600 })
  const [plain] = linkEntries(emptyHead('marram-house'), { entries, received: RECEIVED })
  const { clockAheadS: _, ...without } = link ?? {}
  const walked = (one: unknown) => verifyChain([one], { investigation: 'marram-house' }).sound
  expect([link, plain].map(walked)).toEqual([true, true])
  const broken = [{ ...link, clockAheadS: 3601 }, without, { ...plain, clockAheadS: 60 }, { ...link, clockAheadS: 0.5 }]
  expect(broken.map(walked)).toEqual([false, false, false, false])
})
