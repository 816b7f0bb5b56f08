import type { Link } from '@rillmark/casebook/chain/link.ts'
import { parseEntry } from '@rillmark/casebook/entry/parse-entry.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { compileTypst } from '../typst/compile.ts'
import { sha256Of } from '@rillmark/casebook/chain/link.ts'
import { receiptJson } from './receipt-json.ts'

/** A receipt as a page to keep: what the entries say, where they stand, and the figures that the file beside it is held against. */
export function receiptPdf(receipt: Receipt): Uint8Array {
  const links = receipt.proofs.map(({ leaf }) => leaf as Link)
  const asOf =
    links
      .map(({ received }) => received)
      .toSorted()
      .at(-1) ?? ''
  const { investigation, sample, treeSize, rootHash } = receipt
  const data = {
    investigation,
    sample: sample ?? '',
    treeSize,
    root: hashGroups(rootHash),
    file: hashGroups(sha256Of(receiptJson(receipt))),
    entries: links.map(rowOf),
    devices: receipt.devices.map(({ leaf }) => deviceOf(leaf as Link)),
  }
  return compileTypst({ template: 'receipt.typ', data, asOf })
}

function rowOf({ entry, sequence }: Link): object {
  const parsed = parseEntry(entry)
  const read = parsed.ok ? parsed.entry : entry
  return {
    number: sequence,
    at: wallClock({ instant: entry.instant, offset: entry.offset }),
    says: entryWords(read),
    by: `${entry.author}, ${entry.device}`,
    signed: entry.signature === undefined ? 'no' : 'yes',
  }
}

function deviceOf({ entry, sequence }: Link): object {
  const name = entry.kind === 'device.joined' ? `${entry.body.name}, ${entry.body.role}` : ''
  return { device: entry.device, name, number: sequence, key: hashGroups(entry.signature?.key ?? '') }
}
