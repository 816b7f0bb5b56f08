import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { emptyHead, headAfter, type Link, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { recordLines } from '@rillmark/casebook/chain/record-lines.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { strToU8, type Zippable, zipSync } from 'fflate'
import { attachmentsIn } from './attachments-in.ts'
import { derivedFiles, prettyJson } from './derived-files.ts'
import { issuedReports } from './issued-reports.ts'
import {
  ENTRIES_PATH,
  MANIFEST_PATH,
  type Manifest,
  PACKAGE_FORMAT,
  REPORTS_FOLDER,
  VERIFIER_PATH,
} from './manifest.ts'
import { ATTACHMENT_EXTENSIONS, mediaTypeOf } from './media-type.ts'
import { TABLES_VERSION } from './tables.ts'

/** ZIP keeps local wall-clock fields: made from fields, they are the same in every time zone. */
const EPOCH = new Date(1980, 0, 1)
const LEVEL = 6

/** What goes into a package beside what follows from the record. */
export interface PackageParts {
  /** bytes by SHA-256, as far as they are at hand */
  readonly attachments: ReadonlyMap<string, Uint8Array>
  /** PDFs by the name they get in `reports/`, without folder */
  readonly reports?: ReadonlyMap<string, Uint8Array> | undefined
  /** the page that verifies packages, as this version builds it */
  readonly verifier?: Uint8Array | undefined
}

/**
 * The open package of one investigation: the whole record, its attachments, reports, keys, the root of its tree, tables for reading
 * elsewhere and a page that verifies all of it. The same record and parts give the same bytes.
 * @param links the whole record, from the first link
 * @throws RangeError when there is no link
 */
export function writePackage(links: readonly Link[], parts: PackageParts): Uint8Array {
  const investigation = links[0]?.entry.investigation
  if (investigation === undefined) throw new RangeError('Cannot write a package because the record is empty')
  const entries = entriesOf(links)
  const state = derive(investigation, entries)
  const files = new Map<string, Uint8Array>([
    [ENTRIES_PATH, strToU8(recordLines(links))],
    ...derivedFiles({ state, entries, tree: recordTree(links) }),
    ...[...(parts.reports ?? [])].map(([name, bytes]) => [`${REPORTS_FOLDER}${name}`, bytes] as const),
    ...(parts.verifier === undefined ? [] : [[VERIFIER_PATH, parts.verifier] as const]),
    ...attachmentsIn(entries).flatMap((sha256) => attachmentFile(sha256, parts.attachments.get(sha256))),
  ])
  const manifest = manifestOf({ state, links, entries, files })
  return zipped(new Map([[MANIFEST_PATH, strToU8(prettyJson(manifest))], ...files]))
}

interface Contents {
  readonly state: InvestigationState
  readonly links: readonly Link[]
  readonly entries: readonly Entry[]
  readonly files: ReadonlyMap<string, Uint8Array>
}

function manifestOf({ state, links, entries, files }: Contents): Manifest {
  const { investigation } = state
  const listed = [...files].map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: sha256OfBytes(bytes) }))
  const kept = new Set(listed.map(({ sha256 }) => sha256))
  const wanted = [...attachmentsIn(entries), ...issuedReports(entries).map(({ body }) => body.sha256)]
  return {
    format: PACKAGE_FORMAT,
    investigation,
    title: state.brief.opened?.body.title ?? investigation,
    head: headAfter(emptyHead(investigation), links),
    counts: {
      entries: links.length,
      attachments: listed.filter(({ path }) => path.startsWith('attachments/')).length,
    },
    files: listed,
    missing: [...new Set(wanted)].filter((sha256) => !kept.has(sha256)),
    tables: TABLES_VERSION,
  }
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
