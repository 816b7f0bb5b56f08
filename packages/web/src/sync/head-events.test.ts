import { afterEach, expect, test, vi } from 'vitest'
import { onNewHead } from './head-events.ts'

class FakeEvents extends EventTarget {
  static open: FakeEvents[] = []
  readyState = 0
  constructor() {
    super()
    FakeEvents.open.push(this)
  }
  close(): void {
    FakeEvents.open = FakeEvents.open.filter((one) => one !== this)
  }
}

afterEach(() => {
  vi.unstubAllGlobals()
  FakeEvents.open = []
})

test('a hidden page gives its connection up, and asks at once when it is seen again', () => {
  const page = Object.assign(new EventTarget(), { visibilityState: 'visible' })
  vi.stubGlobal('EventSource', FakeEvents)
  vi.stubGlobal('document', page)
  let asked = 0
  const stop = onNewHead('/events', {
    nudge: async () => {
      asked += 1
    },
  })
  const show = (visibilityState: string): void => {
    page.visibilityState = visibilityState
    page.dispatchEvent(new Event('visibilitychange'))
  }
  expect([FakeEvents.open.length, asked]).toEqual([1, 1])
  FakeEvents.open[0]?.dispatchEvent(new Event('head'))
  show('hidden')
  expect([FakeEvents.open.length, asked]).toEqual([0, 2])
  show('visible')
  expect([FakeEvents.open.length, asked]).toEqual([1, 3])
  stop()
  show('visible')
  expect(FakeEvents.open.length).toBe(0)
})

test('[SYN30] a stream refused because the session ended is asked for again after an exchange, later each time', async () => {
  vi.stubGlobal('EventSource', FakeEvents)
  const waits: { run: () => void; ms: number }[] = []
  const later = (run: () => void, ms: number) => {
    const wait = { run, ms }
    waits.push(wait)
    return () => void waits.splice(waits.indexOf(wait), 1)
  }
  let asked = 0
  const nudge = async (): Promise<void> => void (asked += 1)
  const stop = onNewHead('/events', { nudge, timers: { later } })
  const refuse = (): void => {
    const [events] = FakeEvents.open
    if (events === undefined) throw new RangeError('no stream is open')
    events.close()
    events.readyState = 2
    events.dispatchEvent(new Event('error'))
  }
  const pass = async (): Promise<number | undefined> => {
    const wait = waits.shift()
    wait?.run()
    await Promise.resolve().then(() => undefined)
    return wait?.ms
  }
  // a lost connection is the browser's own business
  FakeEvents.open[0]?.dispatchEvent(new Event('error'))
  expect([waits.length, asked]).toEqual([0, 1])
  refuse()
  expect([FakeEvents.open.length, asked, await pass()]).toEqual([0, 1, 1000])
  expect([FakeEvents.open.length, asked]).toEqual([1, 2])
  refuse()
  expect(await pass()).toBe(2000)
  FakeEvents.open[0]?.dispatchEvent(new Event('open'))
  FakeEvents.open[0]?.dispatchEvent(new Event('head'))
  expect(asked).toBe(4)
  refuse()
  expect(await pass()).toBe(1000)
  refuse()
  stop()
  expect([waits.length, FakeEvents.open.length]).toEqual([0, 0])
})
