import { type Link, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { readRecordLines } from '@rillmark/casebook/chain/record-lines.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentsIn } from './attachments-in.ts'
import { ENTRIES_PATH, isPackagePath, MANIFEST_PATH, type Manifest, manifestSchema } from './manifest.ts'
import { ATTACHMENT_LIMIT_BYTES, mediaTypeOf } from './media-type.ts'
import { unzipMember } from './unzip-member.ts'
import { readZipDirectory, type ZipMember } from './zip-directory.ts'

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
 * bad data.
 */
export function readPackage(bytes: Uint8Array): Reading {
  const directory = readZipDirectory(bytes)
  if (!directory.ok) return directory
  const strangers = directory.members.flatMap(({ path }) => (isPackagePath(path) ? [] : [strangerIssue(path)]))
  if (strangers.length > 0) return { ok: false, issues: strangers }
  const files = new Map<string, Uint8Array>()
  for (const member of directory.members) {
    const content = unzipMember(bytes, member)
    if (content === undefined) return { ok: false, issues: [damaged(member)] }
    files.set(member.path, content)
  }
  return readFiles(files)
}

function readFiles(files: ReadonlyMap<string, Uint8Array>): Reading {
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
  return readRecord(manifest, files)
}

function readRecord(manifest: Manifest, files: ReadonlyMap<string, Uint8Array>): Reading {
  const text = textOf(files.get(ENTRIES_PATH))
  if (text === undefined)
    return {
      ok: false,
      issues: [statedIssue(ENTRIES_PATH, { expected: 'text in UTF-8', received: 'another encoding' })],
    }
  const { investigation, head, counts } = manifest
  const { verdict, links } = readRecordLines(text, { investigation, head })
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

function listingIssues({ files: listed }: Manifest, files: ReadonlyMap<string, Uint8Array>): Issue[] {
  const names = new Set(listed.map(({ path }) => path))
  const unlisted = [...files.keys()].filter((path) => path !== MANIFEST_PATH && !names.has(path))
  return [
    ...unlisted.map((path) =>
      statedIssue(path, { expected: 'only files the manifest lists', received: 'one it does not list' }),
    ),
    ...listed.flatMap(({ path, bytes, sha256 }) => {
      const file = files.get(path)
      if (file === undefined)
        return [statedIssue(path, { expected: 'the file the manifest lists', received: undefined })]
      const sound = file.length === bytes && sha256OfBytes(file) === sha256
      return sound
        ? []
        : [statedIssue(path, { expected: `${bytes} bytes with SHA-256 ${sha256}`, received: 'other bytes' })]
    }),
    ...(names.has(ENTRIES_PATH) ? [] : [statedIssue(ENTRIES_PATH, { expected: 'the record', received: undefined })]),
  ]
}

function attachmentsOf(files: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  const found = [...files].flatMap(([path, bytes]) => {
    const sha256 = /^attachments\/([0-9a-f]{64})\./.exec(path)?.[1]
    return sha256 === undefined ? [] : [[sha256, bytes] as const]
  })
  return new Map(found)
}

function attachmentIssues(attachments: ReadonlyMap<string, Uint8Array>, links: readonly Link[]): Issue[] {
  const named = new Set(attachmentsIn(links.map(({ entry }) => entry)))
  return [...attachments].flatMap(([sha256, bytes]) => {
    const path = `attachments/${sha256}`
    if (sha256OfBytes(bytes) !== sha256)
      return [statedIssue(path, { expected: 'bytes with the hash in its name', received: 'other bytes' })]
    if (bytes.length > ATTACHMENT_LIMIT_BYTES)
      return [statedIssue(path, { expected: `at most ${ATTACHMENT_LIMIT_BYTES} bytes`, received: bytes.length })]
    if (mediaTypeOf(bytes) === undefined)
      return [statedIssue(path, { expected: 'a JPEG, PNG or WebP picture', received: 'something else' })]
    return named.has(sha256)
      ? []
      : [statedIssue(path, { expected: 'an attachment the record names', received: 'one it does not name' })]
  })
}

function strangerIssue(path: string): Issue {
  const outside = /(^|[\\/])\.\.([\\/]|$)|^[\\/]|^[a-z]:|\\|\0/i.test(path)
  return statedIssue(path, {
    expected: 'a file that belongs in a package',
    received: outside ? 'a path that leads outside' : 'an unknown file',
  })
}

function damaged({ path }: ZipMember): Issue {
  return statedIssue(path, { expected: 'the bytes the archive declares', received: 'damaged or more bytes' })
}

function textOf(bytes: Uint8Array | undefined): string | undefined {
  if (bytes === undefined) return undefined
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return undefined
  }
}

function jsonOf(bytes: Uint8Array | undefined): unknown {
  try {
    return JSON.parse(textOf(bytes) ?? '')
  } catch {
    return undefined
  }
}
