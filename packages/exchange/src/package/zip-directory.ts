import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'

/** One file a ZIP archive says it holds, as its central directory describes it. */
export interface ZipMember {
  readonly path: string
  readonly method: number
  readonly packedBytes: number
  readonly unpackedBytes: number
  readonly crc32: number
  /** where its packed bytes begin in the archive */
  readonly dataAt: number
}

/** Signatures and field places: PKWARE .ZIP File Format Specification (APPNOTE), sections 4.3.7, 4.3.12, 4.3.16. */
const END_SIGNATURE = 0x06054b50
const MEMBER_SIGNATURE = 0x02014b50
const LOCAL_SIGNATURE = 0x04034b50
const END_BYTES = 22
const MEMBER_BYTES = 46
const LOCAL_BYTES = 30
const LONGEST_COMMENT = 0xffff
const ZIP64 = 0xffffffff
const ENCRYPTED = 0x1
const UTF8_NAMES = 0x800
const STORED = 0
const DEFLATED = 8
const FILE_TYPE = 0o170000
const SYMBOLIC_LINK = 0o120000
const MADE_ON_UNIX = 3

export const ZIP_LIMITS = {
  archiveBytes: 512 * 1024 * 1024,
  members: 20_000,
  unpackedBytes: 1024 ** 3,
  ratio: 300,
  smallBytes: 1024 * 1024,
} as const

/** Reads what an archive says it holds, without unpacking a byte of it, and names everything wrong with it. */
export function readZipDirectory(
  bytes: Uint8Array,
): { ok: true; members: ZipMember[] } | { ok: false; issues: Issue[] } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const end = endRecord(view)
  if (end === undefined) return refusal('a whole ZIP archive', 'no end of archive: not a ZIP, or cut short')
  const count = view.getUint16(end + 10, true)
  const at = view.getUint32(end + 16, true)
  if (at === ZIP64 || count === 0xffff) return refusal('a ZIP archive under 4 GB', 'a ZIP64 archive')
  if (count > ZIP_LIMITS.members) return refusal(`at most ${ZIP_LIMITS.members} files`, `${count} files`)
  return readMembers(view, { at, count, end })
}

function readMembers(view: DataView, { at, count, end }: { at: number; count: number; end: number }) {
  const members: ZipMember[] = []
  const issues: Issue[] = []
  let place = at
  for (let n = 0; n < count; n += 1) {
    if (place + MEMBER_BYTES > end || view.getUint32(place, true) !== MEMBER_SIGNATURE)
      return refusal(`${count} files`, `a directory that breaks off after ${n}`)
    const { member, problem, next } = readMember(view, { place, end })
    if (problem === undefined) members.push(member)
    else issues.push(statedIssue(member.path, problem))
    place = next
  }
  const trouble = [...issues, ...sizeIssues(members), ...overlapIssues(members, at), ...repeatIssues(members)]
  return trouble.length === 0 ? { ok: true as const, members } : { ok: false as const, issues: trouble }
}

function readMember(view: DataView, { place, end }: { place: number; end: number }) {
  const nameBytes = view.getUint16(place + 28, true)
  const next = place + MEMBER_BYTES + nameBytes + view.getUint16(place + 30, true) + view.getUint16(place + 32, true)
  const { text: path, sound } = nameOf(view, {
    at: place + MEMBER_BYTES,
    bytes: Math.min(nameBytes, end - place - MEMBER_BYTES),
  })
  const localAt = view.getUint32(place + 42, true)
  const member = {
    path,
    method: view.getUint16(place + 10, true),
    crc32: view.getUint32(place + 16, true),
    packedBytes: view.getUint32(place + 20, true),
    unpackedBytes: view.getUint32(place + 24, true),
    dataAt: dataPlace(view, localAt),
  }
  const made = view.getUint8(place + 5)
  const mode = view.getUint32(place + 38, true) >>> 16
  const linked = made === MADE_ON_UNIX && (mode & FILE_TYPE) === SYMBOLIC_LINK
  const flags = view.getUint16(place + 8, true)
  const named = sound && (/^[\x20-\x7e]*$/.test(path) || (flags & UTF8_NAMES) !== 0)
  return { member, next, problem: problemOf(member, { linked, flags, named }) }
}

function problemOf(member: ZipMember, { linked, flags, named }: { linked: boolean; flags: number; named: boolean }) {
  if (!named) return { expected: 'a file name in UTF-8', received: 'another encoding' }
  if (linked) return { expected: 'a file', received: 'a symbolic link' }
  if ((flags & ENCRYPTED) !== 0) return { expected: 'a file that is not encrypted', received: 'an encrypted one' }
  if (member.method !== STORED && member.method !== DEFLATED)
    return { expected: 'a file stored or deflated', received: `compression method ${member.method}` }
  if (Number.isNaN(member.dataAt))
    return { expected: 'the bytes of the file', received: 'an archive that ends before them' }
  return undefined
}

function sizeIssues(members: readonly ZipMember[]): Issue[] {
  const total = members.reduce((sum, { unpackedBytes }) => sum + unpackedBytes, 0)
  if (total > ZIP_LIMITS.unpackedBytes)
    return [statedIssue('', { expected: `at most ${ZIP_LIMITS.unpackedBytes} bytes unpacked`, received: total })]
  return members
    .filter(
      ({ packedBytes, unpackedBytes }) =>
        unpackedBytes > Math.max(packedBytes * ZIP_LIMITS.ratio, ZIP_LIMITS.smallBytes),
    )
    .map(({ path, packedBytes, unpackedBytes }) =>
      statedIssue(path, {
        expected: `at most ${ZIP_LIMITS.ratio} times its packed size`,
        received: `${packedBytes} bytes that unpack to ${unpackedBytes}`,
      }),
    )
}

/** Two members that share bytes are the trick of small archives that unpack to enormous ones. */
function overlapIssues(members: readonly ZipMember[], directoryAt: number): Issue[] {
  const inOrder = members.toSorted((a, b) => a.dataAt - b.dataAt)
  return inOrder.flatMap(({ path, dataAt, packedBytes }, index) => {
    const limit = inOrder[index + 1]?.dataAt ?? directoryAt
    return dataAt + packedBytes <= limit
      ? []
      : [statedIssue(path, { expected: 'bytes of its own', received: 'bytes it shares or that are missing' })]
  })
}

function repeatIssues(members: readonly ZipMember[]): Issue[] {
  const seen = new Set<string>()
  return members.flatMap(({ path }) => {
    const known = seen.has(path.toLowerCase())
    seen.add(path.toLowerCase())
    return known ? [statedIssue(path, { expected: 'each file once', received: 'the same name twice' })] : []
  })
}

function endRecord(view: DataView): number | undefined {
  const first = Math.max(0, view.byteLength - END_BYTES - LONGEST_COMMENT)
  for (let at = view.byteLength - END_BYTES; at >= first; at -= 1) {
    const whole = at + END_BYTES + view.getUint16(at + 20, true) === view.byteLength
    if (whole && view.getUint32(at, true) === END_SIGNATURE) return at
  }
  return undefined
}

function dataPlace(view: DataView, localAt: number): number {
  if (localAt + LOCAL_BYTES > view.byteLength || view.getUint32(localAt, true) !== LOCAL_SIGNATURE) return Number.NaN
  return localAt + LOCAL_BYTES + view.getUint16(localAt + 26, true) + view.getUint16(localAt + 28, true)
}

function nameOf(view: DataView, { at, bytes }: { at: number; bytes: number }): { text: string; sound: boolean } {
  const name = new Uint8Array(view.buffer, view.byteOffset + at, Math.max(0, bytes))
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(name), sound: true }
  } catch {
    return { text: new TextDecoder('latin1').decode(name), sound: false }
  }
}

function refusal(expected: string, received: string): { ok: false; issues: Issue[] } {
  return { ok: false, issues: [statedIssue('', { expected, received })] }
}
