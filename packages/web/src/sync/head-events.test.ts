import { afterEach, expect, test, vi } from 'vitest'
import { onNewHead } from './head-events.ts'

class FakeEvents extends EventTarget {
  static open: FakeEvents[] = []
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
  const stop = onNewHead('/events', () => {
    asked += 1
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
