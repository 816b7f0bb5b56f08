import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { ParcelStore, VOLUME_L } from './parcel-store.ts'

const PIPES = 3
const ACTS = ['addFrom', 'addTo', 'dropFrom', 'dropTo'] as const
const act = fc.record({ pipe: fc.nat({ max: PIPES - 1 }), kind: fc.constantFrom(...ACTS) })

/** Does the same to a plain list, place 0 at the `to` end. */
function actOn(list: number[], kind: (typeof ACTS)[number], next: number): void {
  if (kind === 'addFrom') list.push(next)
  if (kind === 'addTo') list.unshift(next)
  if (kind === 'dropFrom') list.pop()
  if (kind === 'dropTo') list.shift()
}

test('parcels come and go at both ends as in a list, whatever room they need', () => {
  fc.assert(
    fc.property(fc.array(act, { maxLength: 400 }), (acts) => {
      const store = new ParcelStore(PIPES)
      const lists: number[][] = Array.from({ length: PIPES }, () => [])
      for (const [next, { pipe, kind }] of acts.entries()) {
        const list = lists[pipe] ?? []
        if (kind === 'addFrom' || kind === 'addTo') {
          const at = store[kind](pipe)
          store.data[at + VOLUME_L] = next
        } else if (list.length > 0) store[kind](pipe)
        actOn(list, kind, next)
      }
      for (const [pipe, list] of lists.entries()) {
        expect(store.count[pipe]).toBe(list.length)
        expect(list.map((_, place) => store.data[store.at(pipe, place) + VOLUME_L])).toEqual(list)
      }
    }),
  )
})
