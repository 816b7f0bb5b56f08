import { expect, test } from 'vitest'
import { keepsAttribute } from './draw-still.ts'
import { investigationOfStill, isOfNow, type KeptStill, stillFrom } from './still.ts'

const STILL: KeptStill = {
  build: 'b1',
  place: '/i/marram-house/fieldwork',
  width: 390,
  settings: '["dark",0,null,null,0]',
  html: '<main><h1>Fieldwork</h1></main>',
  links: 12,
  waiting: ['entry-1'],
}

test('[OFF17] a still of this build, place, width, settings and record is of now', () => {
  expect(isOfNow(STILL, { ...STILL })).toBe(true)
})

test.each<[string, Partial<KeptStill>]>([
  ['another build', { build: 'b2' }],
  ['another screen', { place: '/i/marram-house/brief' }],
  ['another investigation', { place: '/i/gull-house/fieldwork' }],
  ['another width', { width: 391 }],
  ['another theme', { settings: '["light",0,null,null,0]' }],
  ['a link more', { links: 13 }],
  ['an entry that waits more', { waiting: ['entry-1', 'entry-2'] }],
  ['another entry that waits', { waiting: ['entry-2'] }],
  ['nothing that waits any more', { waiting: [] }],
])('[OFF17] a still is not of now with %s', (_, now) => {
  expect(isOfNow(STILL, { ...STILL, ...now })).toBe(false)
})

test.each<[string, string | undefined]>([
  ['/i/marram-house/fieldwork', 'marram-house'],
  ['/i/caf%C3%A9/brief', 'café'],
  ['/i/marram-house/fieldwork?show=a1', undefined],
  ['/i/marram-house/custody', undefined],
  ['/i/marram-house/calculators/scald-time', undefined],
  ['/i/marram-house', undefined],
  ['/devices', undefined],
  ['/join#code', undefined],
  ['/', undefined],
])('[OFF17] of the address %s a still is of %s', (address, investigation) => {
  expect(investigationOfStill(new URL(address, 'https://example.org'))).toBe(investigation)
})

test('what is no still is none', () => {
  expect(stillFrom(JSON.stringify(STILL))).toEqual(STILL)
  for (const other of [undefined, 7, '', '{', 'null', '[]', '{"html":"x"}']) expect(stillFrom(other)).toBeUndefined()
})

test.each<[string, string, boolean]>([
  ['class', 'field-stop', true],
  ['data-kind', 'warn', true],
  ['aria-current', 'page', true],
  ['d', 'M0 0L4 4', true],
  ['id', 'main', false],
  ['for', 'field-1', false],
  ['aria-labelledby', 'heading', false],
  ['name', 'password', false],
  ['value', 'half typed', false],
  ['checked', '', false],
  ['href', '/receipt#secret', false],
  ['src', '/api/attachments/abc', false],
  ['onclick', 'alert(1)', false],
  ['style', 'width: 4px', false],
  ['tabindex', '0', false],
  ['data-focus-visible', 'true', false],
  ['fill', 'url(#hatch)', false],
  ['data-x', 'javascript:alert(1)', false],
  ['data-x', 'blob:https://example.org/1', false],
])('[OFF19] of an element with %s="%s" a still keeps it: %s', (name, value, kept) => {
  expect(keepsAttribute(name, value)).toBe(kept)
})
