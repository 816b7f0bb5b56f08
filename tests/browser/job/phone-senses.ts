import type { Page } from '@playwright/test'

/** What a phone was asked to do that no picture shows. */
export interface Senses {
  /** each vibration, as the app gave it */
  readonly vibrations: () => Promise<string[]>
  /** how many tones began */
  readonly tones: () => Promise<number>
  /** whether the screen is kept on now */
  readonly keptOn: () => Promise<boolean>
}

/** Listens to vibration, sound and wake lock of this page from its next load on; the calls still go through. */
export async function listenTo(page: Page): Promise<Senses> {
  await page.addInitScript(() => {
    const told = { vibrations: [] as string[], tones: 0, locks: 0 }
    Object.assign(window, { told })
    const { vibrate } = navigator
    navigator.vibrate = (pattern) => {
      told.vibrations.push(String(pattern))
      return Reflect.apply(vibrate, navigator, [pattern])
    }
    const { start } = OscillatorNode.prototype
    OscillatorNode.prototype.start = function (when) {
      told.tones += 1
      return start.call(this, when)
    }
    const { request } = WakeLock.prototype
    WakeLock.prototype.request = async function (type) {
      const lock = await request.call(this, type)
      told.locks += 1
      lock.addEventListener('release', () => {
        told.locks -= 1
      })
      return lock
    }
  })
  const told = (): Promise<{ vibrations: string[]; tones: number; locks: number }> =>
    page.evaluate(() => Reflect.get(window, 'told'))
  return {
    vibrations: async () => (await told()).vibrations,
    tones: async () => (await told()).tones,
    keptOn: async () => (await told()).locks > 0,
  }
}
