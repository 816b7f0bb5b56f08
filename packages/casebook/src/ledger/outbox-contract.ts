import { beforeEach, describe, expect, test } from 'vitest'
import { emptyHead, linkEntries } from '../chain/link.ts'
import type { Entry } from '../entry/entry.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import type { Ledger, Outbox } from './ledger.ts'

/** What every outbox must do. `open` gives an empty one of device `desk-1`, beside the replica it belongs to. */
export function outboxContract(name: string, open: () => Promise<{ outbox: Outbox; ledger: Ledger }>): void {
  describe(`${name}: the outbox contract`, () => {
    let outbox: Outbox
    let ledger: Ledger
    let entries: [Entry, Entry, Entry]
    beforeEach(async () => {
      ;({ outbox, ledger } = await open())
      const { make } = entryMaker('marram-house')
      const note = (text: string) => make('note.written', { text, purpose: 'note' })
      entries = [note('one'), note('two'), note('three')]
    })

    test('[OUT1] held entries wait in the order of the device, whatever order they were held in', async () => {
      const [first, second, third] = entries
      await outbox.hold(third)
      await outbox.hold(first)
      await outbox.hold(second)
      expect(await outbox.pending('marram-house')).toEqual(entries.map((entry) => ({ entry })))
      expect(await outbox.pending('another')).toEqual([])
      expect(await outbox.investigations()).toEqual(['marram-house'])
    })

    test('[OUT2] holding an entry again is harmless and keeps what is known of it', async () => {
      const [first] = entries
      await outbox.hold(first)
      await outbox.refuse(first.id, [issue('body', { expected: 'x', received: 1 })])
      await outbox.hold(first)
      expect(await outbox.pending('marram-house')).toEqual([
        { entry: first, refused: [{ path: 'body', expected: 'x', received: '1' }] },
      ])
    })

    test('[OUT3] a refused entry stays with its reasons until it is released', async () => {
      const [first, second] = entries
      await outbox.hold(first)
      await outbox.hold(second)
      await outbox.refuse(second.id, [issue('body.text', { expected: 'y', received: 'z' })])
      await outbox.release([first.id])
      expect(await outbox.pending('marram-house')).toMatchObject([
        { entry: { id: second.id }, refused: [{ path: 'body.text' }] },
      ])
      await outbox.release([second.id])
      expect(await outbox.pending('marram-house')).toEqual([])
      expect(await outbox.investigations()).toEqual([])
    })

    test('[OUT4] a device number is never given out twice, also after everything was released', async () => {
      expect(await outbox.nextDeviceSequence('marram-house')).toBe(1)
      for (const entry of entries) await outbox.hold(entry)
      expect(await outbox.nextDeviceSequence('marram-house')).toBe(4)
      await outbox.release(entries.map(({ id }) => id))
      expect(await outbox.nextDeviceSequence('marram-house')).toBe(4)
      expect(await outbox.nextDeviceSequence('quay-hotel')).toBe(1)
    })

    test('[OUT5] numbers go on after this device’s own entries in the record, and leave others’ out of account', async () => {
      const theirs = entryMaker('marram-house', { device: 'desk-2' })
      for (let n = 0; n < 8; n += 1) theirs.make('note.written', { text: 'skipped', purpose: 'note' })
      const foreign = theirs.make('note.written', { text: 'theirs', purpose: 'note' })
      const links = linkEntries(emptyHead('marram-house'), {
        entries: [...entries, foreign],
        received: '2026-03-02T09:00:00.000Z',
      })
      await ledger.commit(links)
      expect(await outbox.nextDeviceSequence('marram-house')).toBe(4)
    })

    test('[OUT6] several entries are held together, and their numbers count', async () => {
      await outbox.hold(entries[1])
      await outbox.holdAll(entries)
      expect(await outbox.pending('marram-house')).toEqual(entries.map((entry) => ({ entry })))
      expect(await outbox.nextDeviceSequence('marram-house')).toBe(4)
      await outbox.holdAll([])
    })

    test('[OUT2] refusing or releasing an entry that is not there changes nothing', async () => {
      await outbox.refuse(crypto.randomUUID(), [])
      await outbox.release([crypto.randomUUID()])
      expect(await outbox.pending('marram-house')).toEqual([])
    })
  })
}
