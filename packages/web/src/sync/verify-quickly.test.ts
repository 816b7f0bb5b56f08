import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { expect, test, vi } from 'vitest'
import { verifyQuickly } from './verify-quickly.ts'

const INVESTIGATION = 'marram-house'
const [ours, theirs] = [testKey('ours'), testKey('theirs')]
const { make } = entryMaker(INVESTIGATION, { device: 'phone' })
const SOUND: readonly Entry[] = [
  ours.sign(make('device.joined', { name: 'Phone', role: 'lead', key: ours.key })),
  ...['one', 'two'].map((text) => ours.sign(make('note.written', { text, purpose: 'note' }))),
]
const altered = (change: (entry: Entry) => object): readonly Entry[] =>
  SOUND.map((entry, at) => (at === 1 ? { ...entry, ...change(entry) } : entry))
const byAnother = (entry: Entry) => ({ signature: theirs.sign(entry).signature })
const withValue = (value: string) => altered(({ signature }) => ({ signature: { key: signature?.key ?? '', value } }))

// the plain check, in code of its own (noble), is what it is held against; the quick one is the platform's
test.each([
  ['a sound record', SOUND],
  ['a changed author', altered(() => ({ author: 'S. Other' }))],
  ['no signature', altered(() => ({ signature: undefined }))],
  ['another key', altered(byAnother)],
  ['a signature of zeros', withValue('A'.repeat(86))],
  ['a signature of another entry', withValue(SOUND[2]?.signature?.value ?? '')],
] as const)('[SYN31] %s gets the verdict of the plain check', async (_, entries) => {
  const written = JSON.parse(JSON.stringify(entries)) as Entry[]
  const links = linkEntries(emptyHead(INVESTIGATION), { entries: written, received: '2026-03-02T12:00:00.000Z' })
  const expected = { investigation: INVESTIGATION }
  const plain = verifyChain(links, { ...expected, checkSignature })
  expect(await verifyQuickly(links, expected)).toEqual(plain)
  expect(plain.sound).toBe(entries === SOUND)
  vi.stubGlobal('crypto', {})
  expect(await verifyQuickly(links, expected)).toEqual(plain)
  vi.unstubAllGlobals()
})
