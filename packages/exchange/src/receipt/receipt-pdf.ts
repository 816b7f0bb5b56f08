import type { Link } from '@rillmark/casebook/chain/link.ts'
import { parseEntry } from '@rillmark/casebook/entry/parse-entry.ts'
import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { serverJoin } from '@rillmark/casebook/receipt/issuer.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { compileTypst } from '../typst/compile.ts'

/** A receipt as a page to keep: what the entries say, where they stand, and the figures that the file is held against. */
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
    given: givenOf(receipt),
    entries: links.map((link) => rowOf(link, links)),
    devices: receipt.devices
      .map(({ leaf }) => leaf as Link)
      .filter(({ entry }) => links.some(({ entry: { device } }) => device === entry.device))
      .map(deviceOf),
  }
  return compileTypst({ template: 'receipt.typ', data, asOf })
}

/** The hour is left to the file: the same record gives the same page. */
function givenOf({ devices, signature }: Receipt): object | undefined {
  if (signature === undefined) return undefined
  const joins = devices.map(({ leaf }) => leaf as Link)
  return { key: hashGroups(signature.key), joined: serverJoin(joins, signature.key)?.sequence }
}

function rowOf({ entry, sequence }: Link, links: readonly Link[]): object {
  const parsed = parseEntry(entry)
  const read = parsed.ok ? parsed.entry : entry
  return {
    number: sequence,
    at: wallClock({ instant: entry.instant, offset: entry.offset }),
    kind: KINDS[entry.kind].title,
    says: entryWords(read),
    corrects: correctsWords(entry, links),
    by: `${entry.author}, ${entry.device}`,
    signed: entry.signature === undefined ? 'no' : 'yes',
  }
}

/** What an entry does to an earlier one of the receipt. */
function correctsWords({ kind, corrects }: Link['entry'], links: readonly Link[]): string | undefined {
  if (corrects === undefined) return undefined
  const number = links.find(({ entry }) => entry.id === corrects.entry)?.sequence
  const named = number === undefined ? 'an earlier entry' : `no. ${number}`
  return `${kind === 'entry.withdrawn' ? 'withdraws' : 'amends'} ${named}: ${corrects.reason}`
}

function deviceOf({ entry, sequence }: Link): object {
  const name = entry.kind === 'device.joined' ? `${entry.body.name}, ${entry.body.role}` : ''
  return { device: entry.device, name, number: sequence, key: hashGroups(entry.signature?.key ?? '') }
}
