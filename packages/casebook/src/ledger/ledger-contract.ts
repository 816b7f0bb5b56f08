import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { emptyHead, headAfter, type Link, linkEntries } from '../chain/link.ts'
import { verifyChain } from '../chain/verify.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { type Ledger, LedgerConflict } from './ledger.ts'

const RECEIVED = '2026-03-02T09:00:00.000Z'
const EVERYTHING = { after: 0, limit: 1000 }

/** What every ledger must do, whatever it keeps its links in. `open` gives an empty one. */
export function ledgerContract(name: string, open: () => Promise<Ledger>): void {
  describe(`${name}: the ledger contract`, () => {
    let ledger: Ledger
    beforeEach(async () => {
      ledger = await open()
    })
    afterEach(() => ledger.close())

    test('[LED1] what was committed is read back exactly, in order, and verifies', async () => {
      const links = notes('marram-house', 5)
      await ledger.commit(links.slice(0, 2))
      await ledger.commit(links.slice(2))
      const read = await ledger.read('marram-house', EVERYTHING)
      expect(read).toEqual(links)
      expect(verifyChain(read, { investigation: 'marram-house' })).toMatchObject({ sound: true })
    })

    test('[LED2] reading goes on after a cursor and keeps to the limit', async () => {
      const links = notes('marram-house', 5)
      await ledger.commit(links)
      expect(await ledger.read('marram-house', { after: 2, limit: 2 })).toEqual(links.slice(2, 4))
      expect(await ledger.read('marram-house', { after: 4, limit: 2 })).toEqual(links.slice(4))
      expect(await ledger.read('marram-house', { after: 5, limit: 2 })).toEqual([])
      expect(await ledger.read('another', EVERYTHING)).toEqual([])
    })

    test('[LED3] the head is the last link; before any it is tied to the investigation', async () => {
      const links = notes('marram-house', 3)
      expect(await ledger.head('marram-house')).toEqual(emptyHead('marram-house'))
      await ledger.commit(links)
      expect(await ledger.head('marram-house')).toEqual(headAfter(emptyHead('marram-house'), links))
    })

    test('[LED4] a commit that does not continue the record stores nothing at all', async () => {
      const links = notes('marram-house', 4)
      await ledger.commit(links.slice(0, 2))
      const head = await ledger.head('marram-house')
      for (const offered of broken(links)) await expect(ledger.commit(offered)).rejects.toBeInstanceOf(LedgerConflict)
      expect(await ledger.read('marram-house', EVERYTHING)).toEqual(links.slice(0, 2))
      expect(await ledger.head('marram-house')).toEqual(head)
      await ledger.commit(links.slice(2))
      expect(await ledger.read('marram-house', EVERYTHING)).toEqual(links)
    })

    test('[LED5] of two commits that continue the same head at once, one is stored whole and the other refused', async () => {
      const [ours, theirs] = [notes('marram-house', 3, 'desk-1'), notes('marram-house', 2, 'desk-2')]
      const outcomes = await Promise.allSettled([ledger.commit(ours), ledger.commit(theirs)])
      expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
      const kept = await ledger.read('marram-house', EVERYTHING)
      expect(kept).toEqual(outcomes[0].status === 'fulfilled' ? ours : theirs)
    })

    test('[LED6] an id is found under its number; an unknown id is absent', async () => {
      const links = notes('marram-house', 3)
      await ledger.commit(links)
      const [first, , third] = links.map(({ entry }) => entry.id)
      const asked = [third ?? '', first ?? '', crypto.randomUUID()]
      expect(await ledger.sequencesOf('marram-house', asked)).toEqual(
        new Map([
          [third, 3],
          [first, 1],
        ]),
      )
      expect(await ledger.sequencesOf('another', asked)).toEqual(new Map())
      expect(await ledger.sequencesOf('marram-house', [])).toEqual(new Map())
    })

    test('[LED7] investigations are kept apart, and forgetting one leaves the others', async () => {
      const [ours, theirs] = [notes('marram-house', 2), notes('quay-hotel', 3)]
      await ledger.commit(theirs)
      await ledger.commit(ours)
      expect(await ledger.investigations()).toEqual(['marram-house', 'quay-hotel'])
      await ledger.forget('marram-house')
      expect(await ledger.investigations()).toEqual(['quay-hotel'])
      expect(await ledger.read('marram-house', EVERYTHING)).toEqual([])
      expect(await ledger.read('quay-hotel', EVERYTHING)).toEqual(theirs)
      await ledger.commit(ours)
      expect(await ledger.read('marram-house', EVERYTHING)).toEqual(ours)
    })

    test('[LED8] text of every script, and a long one, comes back as it went in', async () => {
      const { make } = entryMaker('marram-house')
      const texts = ['é é', '水温 60 °C', '👩🏽‍🔬', '"\\\u0001\u2028', 'x'.repeat(4000)]
      const entries = texts.map((text) => make('note.written', { text, purpose: 'note' }))
      const links = linkEntries(emptyHead('marram-house'), { entries, received: RECEIVED })
      await ledger.commit(links)
      expect(await ledger.read('marram-house', EVERYTHING)).toEqual(links)
    })

    test('[LED9] what was found of the clock of a device comes back with its link, and where nothing was found there is nothing', async () => {
      const { make } = entryMaker('marram-house')
      const entries = ['ahead', 'behind', 'right'].map((text) => make('note.written', { text, purpose: 'note' }))
      const clocks = new Map([
        [entries[0]?.id, 86_400],
        [entries[1]?.id, -3600],
      ])
      const links = linkEntries(emptyHead('marram-house'), {
        entries,
        received: RECEIVED,
        ahead: ({ id }) => clocks.get(id),
      })
      await ledger.commit(links)
      const read = await ledger.read('marram-house', EVERYTHING)
      expect(read).toEqual(links)
      expect(read.map((link) => 'clockAheadS' in link)).toEqual([true, true, false])
      expect(verifyChain(read, { investigation: 'marram-house' })).toMatchObject({ sound: true })
    })

    test('[LED1] an empty commit is harmless', async () => {
      await ledger.commit([])
      expect(await ledger.investigations()).toEqual([])
    })
  })
}

function notes(investigation: string, count: number, device = 'desk-1'): Link[] {
  const { make } = entryMaker(investigation, { device })
  const entries = Array.from({ length: count }, (_, n) => make('note.written', { text: `note ${n}`, purpose: 'note' }))
  return linkEntries(emptyHead(investigation), { entries, received: RECEIVED })
}

/** Commits that don't continue a record holding the first two of four links. */
function broken(links: readonly Link[]): Link[][] {
  const [first, , third, fourth] = links
  if (first === undefined || third === undefined || fourth === undefined) throw new RangeError('four links are needed')
  const repeated = linkEntries(
    { sequence: 2, hash: links[1]?.hash ?? '' },
    { entries: [first.entry], received: RECEIVED },
  )
  const twice = linkEntries(
    { sequence: 2, hash: links[1]?.hash ?? '' },
    { entries: [third.entry, third.entry], received: RECEIVED },
  )
  return [
    [fourth],
    [third, third],
    [fourth, third],
    [first],
    [{ ...third, previous: first.hash }],
    [{ ...third, sequence: 4 }],
    repeated,
    twice,
    [third, ...notes('quay-hotel', 1)],
  ]
}
