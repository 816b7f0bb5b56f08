import type { Link } from '@rillmark/casebook/chain/link.ts'
import { readRecordLines } from '@rillmark/casebook/chain/record-lines.ts'
import type { CheckSignature } from '@rillmark/casebook/devices/signed-text.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentIssues, attachmentsOf } from './attachment-issues.ts'
import { jsonOf, textOf } from './file-text.ts'
import { listingIssues } from './listing-issues.ts'
import { ENTRIES_PATH, MANIFEST_PATH, type Manifest, manifestSchema } from './manifest.ts'
import { openArchive } from './open-archive.ts'

/** Everything in a package, verified. */
export interface Package {
  readonly manifest: Manifest
  readonly links: readonly Link[]
  /** bytes by SHA-256 */
  readonly attachments: ReadonlyMap<string, Uint8Array>
}

type Reading = { ok: true; value: Package } | { ok: false; issues: readonly Issue[] }

/**
 * Reads and verifies a package: nothing is unpacked before the directory is found sound and within limits, every file must be one
 * the manifest lists with the right hash, and the whole chain must hold up to the manifest's head. All or nothing; never throws on
 * bad data. Signatures are checked where the means are handed in.
 */
export function readPackage(bytes: Uint8Array, options: { checkSignature?: CheckSignature } = {}): Reading {
  const opened = openArchive(bytes)
  return opened.ok ? readFiles(opened.files, options.checkSignature) : opened
}

function readFiles(files: ReadonlyMap<string, Uint8Array>, checkSignature: CheckSignature | undefined): Reading {
  const json = jsonOf(files.get(MANIFEST_PATH))
  const parsed = parseWith(manifestSchema, json)
  if (!parsed.ok)
    return {
      ok: false,
      issues: parsed.issues.map((each) => ({ ...each, path: `${MANIFEST_PATH} ${each.path}`.trim() })),
    }
  const manifest = parsed.value
  const issues = listingIssues(manifest, files)
  if (issues.length > 0) return { ok: false, issues }
  return readRecord(manifest, { files, checkSignature })
}

interface Unpacked {
  readonly files: ReadonlyMap<string, Uint8Array>
  readonly checkSignature: CheckSignature | undefined
}

function readRecord(manifest: Manifest, { files, checkSignature }: Unpacked): Reading {
  const text = textOf(files.get(ENTRIES_PATH))
  if (text === undefined)
    return {
      ok: false,
      issues: [statedIssue(ENTRIES_PATH, { expected: 'text in UTF-8', received: 'another encoding' })],
    }
  const { investigation, head, counts } = manifest
  const { verdict, links } = readRecordLines(text, { investigation, head, checkSignature })
  if (!verdict.sound)
    return {
      ok: false,
      issues: [
        statedIssue(`${ENTRIES_PATH} line ${verdict.sequence}`, {
          expected: 'an unbroken chain',
          received: verdict.reason,
        }),
      ],
    }
  if (links.length !== counts.entries || links.length !== head.sequence)
    return {
      ok: false,
      issues: [
        statedIssue(ENTRIES_PATH, { expected: `${head.sequence} entries`, received: `${links.length} entries` }),
      ],
    }
  const attachments = attachmentsOf(files)
  const issues = attachmentIssues(attachments, links)
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: { manifest, links, attachments } }
}
