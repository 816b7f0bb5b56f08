import { beforeEach, expect, test, vi } from 'vitest'
import { forgetPlace, lastPlace, rememberPlace } from './last-place.ts'

beforeEach(() => {
  const kept = new Map<string, string>()
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
  })
})

test('[OFF2] the installed app opens at the screen of an investigation shown last, else at the start page', () => {
  expect(lastPlace()).toBe('/')
  rememberPlace('/i/marram-house/fieldwork')
  rememberPlace('/')
  rememberPlace('/devices')
  expect(lastPlace()).toBe('/i/marram-house/fieldwork')
  forgetPlace('another')
  expect(lastPlace()).toBe('/i/marram-house/fieldwork')
  forgetPlace('marram-house')
  expect(lastPlace()).toBe('/')
})

test('an address of another site that got into what is kept is not opened', () => {
  localStorage.setItem('rillmark.last-place', JSON.stringify('//example.org/i/x/brief'))
  expect(lastPlace()).toBe('/')
})
