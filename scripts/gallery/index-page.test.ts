import { expect, test } from 'vitest'
import { indexPage } from './index-page.ts'
import { addressOf, allScenes, fileOf, SCREENS } from './scenes.ts'

test('every screen is photographed once at each size in each theme', () => {
  const files = allScenes().map(fileOf)
  expect(new Set(files).size).toBe(files.length)
  expect(files).toHaveLength(SCREENS.length * 4)
})

test('each step has an address in the investigation; the start page has none', () => {
  expect(addressOf('start', 'a b')).toBe('/')
  expect(addressOf('custody', 'a b')).toBe('/i/a%20b/custody')
})

test('the page shows every picture, and says what went wrong on which', () => {
  const page = indexPage(new Map([['plan-phone-dark.png', ['12 px wider than the <screen>']]]))
  for (const scene of allScenes()) expect(page).toContain(`src="${fileOf(scene)}"`)
  expect(page.split('<h2>').find((part) => part.startsWith('plan<'))).toContain('12 px wider than the &lt;screen>')
})
