import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { emptyHead, headAfter, type Link, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { recordLines } from '@rillmark/casebook/chain/record-lines.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { strToU8, type Zippable, zipSync } from 'fflate'
import { attachmentsIn } from './attachments-in.ts'
import { csvOf } from './csv.ts'
import { dataPackage } from './data-package.ts'
import { ENTRIES_PATH, MANIFEST_PATH, type Manifest, PACKAGE_FORMAT } from './manifest.ts'
import { ATTACHMENT_EXTENSIONS, mediaTypeOf } from './media-type.ts'
import { PACKAGE_TABLES } from './tables.ts'

/** ZIP keeps local wall-clock fields: made from fields, they are the same in every time zone. */
const EPOCH = new Date(1980, 0, 1)
const LEVEL = 6

/**
 * The open package of one investigation: the whole record, its attachments, and tables for reading elsewhere. The same record gives
 * the same bytes.
 * @param links the whole record, from the first link
 * @param attachments bytes by SHA-256, as far as they are at hand
 * @throws RangeError when there is no link
 */
export function writePackage(links: readonly Link[], attachments: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const investigation = links[0]?.entry.investigation
  if (investigation === undefined) throw new RangeError('Cannot write a package because the record is empty')
  const entries = entriesOf(links)
  const state = derive(investigation, entries)
  const named = attachmentsIn(entries)
  const files = new Map<string, Uint8Array>([
    [ENTRIES_PATH, strToU8(recordLines(links))],
    ['datapackage.json', strToU8(prettyJson(dataPackage(investigation)))],
    ...PACKAGE_TABLES.map(({ name, fields, rows }) => {
      const header = fields.map((field) => field.name)
      return [`tables/${name}.csv`, strToU8(csvOf(header, rows(state)))] as const
    }),
    ...named.flatMap((sha256) => attachmentFile(sha256, attachments.get(sha256))),
  ])
  const manifest: Manifest = {
    format: PACKAGE_FORMAT,
    investigation,
    title: state.brief.opened?.body.title ?? investigation,
    head: headAfter(emptyHead(investigation), links),
    counts: { entries: links.length, attachments: named.filter((sha256) => attachments.has(sha256)).length },
    files: [...files].map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: sha256OfBytes(bytes) })),
    missing: named.filter((sha256) => !attachments.has(sha256)),
  }
  return zipped(new Map([[MANIFEST_PATH, strToU8(prettyJson(manifest))], ...files]))
}

function attachmentFile(sha256: string, bytes: Uint8Array | undefined): [string, Uint8Array][] {
  const mediaType = bytes === undefined ? undefined : mediaTypeOf(bytes)
  if (bytes === undefined || mediaType === undefined) return []
  return [[`attachments/${sha256}.${ATTACHMENT_EXTENSIONS[mediaType]}`, bytes]]
}

function zipped(files: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const members: Zippable = {}
  for (const [path, bytes] of files) {
    const level = path.startsWith('attachments/') ? 0 : LEVEL
    members[path] = [bytes, { level, mtime: EPOCH }]
  }
  return zipSync(members)
}

/** Canonical order, indented for people. */
function prettyJson(value: unknown): string {
  return `${JSON.stringify(JSON.parse(canonicalJson(value)), null, 2)}\n`
}
