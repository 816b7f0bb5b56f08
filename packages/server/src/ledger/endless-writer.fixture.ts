// Commits links to the ledger file named on the command line until it is killed, and says the number of each after it is durable.
import { writeSync } from 'node:fs'
import { type Head, type Link, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { draftEntry } from '@rillmark/casebook/entry/draft.ts'
import { SqliteLedger } from './sqlite-ledger.ts'

export function linkAfter(head: Head): Link {
  const entry = draftEntry(
    {
      investigation: 'marram-house',
      author: 'R. Vale',
      device: 'desk-1',
      deviceSequence: head.sequence + 1,
      now: { instant: '2026-03-02T08:00:00.000Z', offset: '+00:00' },
      newId: () => crypto.randomUUID(),
    },
    { kind: 'note.written', body: { text: `note ${head.sequence}`, purpose: 'note' } },
  )
  const [link] = linkEntries(head, { entries: [entry], received: '2026-03-02T09:00:00.000Z' })
  if (link === undefined) throw new RangeError('Cannot make a link because none came out')
  return link
}

const STDOUT = 1
const file = process.argv[2]
if (import.meta.main && file !== undefined) {
  const ledger = new SqliteLedger(file)
  for (;;) {
    const link = linkAfter(await ledger.head('marram-house'))
    await ledger.commit([link])
    writeSync(STDOUT, `${link.sequence}\n`)
  }
}
