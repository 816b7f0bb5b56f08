import { expect, test } from 'vitest'
import { Challenges } from './challenges.ts'

const IN = new Set(['desk', 'phone'])
function made() {
  const clock = { ms: 1_000_000 }
  return {
    clock,
    challenges: new Challenges(
      () => clock.ms,
      (device) => IN.has(device),
    ),
  }
}

test('[ACC4] a number is good once, for its own device, for two minutes', () => {
  const { clock, challenges } = made()
  const [one, two, late] = ['desk', 'desk', 'phone'].map((device) => challenges.make(device).nonce) as [
    string,
    string,
    string,
  ]
  expect(challenges.use(one, 'phone')).toBe(false)
  expect([challenges.use(one, 'desk'), challenges.use(one, 'desk')]).toEqual([true, false])
  clock.ms += 120_000
  expect([challenges.use(two, 'desk'), challenges.use(late, 'phone')]).toEqual([false, false])
})

test('[ACC4] whoever asks for many, in whosever name, pushes out nobody else’s', () => {
  const { challenges } = made()
  const own = challenges.make('phone').nonce
  for (let n = 0; n < 20_000; n += 1) challenges.make(n % 2 === 0 ? 'desk' : `browser-${n}`)
  expect(challenges.use(own, 'phone')).toBe(true)
  const unknown = challenges.make('browser-1').nonce
  expect(challenges.use(unknown, 'browser-1')).toBe(false)
})
