import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { inflateSync } from 'fflate'
import type { ZipMember } from '../package/zip-directory.ts'

// Field places: PKWARE .ZIP File Format Specification (APPNOTE), sections 4.3.7, 4.3.12, 4.3.16.
const LOCAL = 30
const CENTRAL = 46
const END = 22
const END_SIGNATURE = 0x06054b50
/** 1 January 1980, midnight: the first moment a ZIP can name, in place of one that says nothing. */
const NO_DATE = 0x0021
const UTF8_NAMES = 0x800
const DEFLATED = 8
/** 2.0, made on no system in particular: as packages are written. */
const VERSION = 20

/**
 * What in an archive is not as a package is written: something before, between, within or behind its files, headers that tell two
 * stories, dates, comments, extra fields. Two programs could read such an archive in two ways, or it could carry more than it shows.
 */
export function archiveFormIssues(bytes: Uint8Array, members: readonly ZipMember[]): Issue[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const end = bytes.length - END
  if (view.getUint32(end, true) !== END_SIGNATURE) return [odd('', 'no comment', 'a comment behind the end')]
  const directoryAt = view.getUint32(end + 16, true)
  const issues: Issue[] = []
  let [fileAt, place] = [0, directoryAt]
  for (const member of members) {
    const central = { view, at: place }
    const localAt = view.getUint32(place + 42, true)
    issues.push(...headerIssues(member, { central, local: { view, at: localAt } }))
    if (localAt !== fileAt)
      issues.push(odd(member.path, `files one after another`, `${localAt - fileAt} bytes before it`))
    if (hasBytesBehind(bytes, member)) issues.push(odd(member.path, 'packed bytes and no more', 'bytes behind them'))
    fileAt = member.dataAt + member.packedBytes
    place +=
      CENTRAL + view.getUint16(place + 28, true) + view.getUint16(place + 30, true) + view.getUint16(place + 32, true)
  }
  if (fileAt !== directoryAt)
    issues.push(odd('', 'the directory behind the last file', `${directoryAt - fileAt} bytes between`))
  return [...issues, ...endIssues(view, { end, directoryAt, place, count: members.length })]
}

interface Header {
  readonly view: DataView
  readonly at: number
}

function headerIssues({ path }: ZipMember, { central, local }: { central: Header; local: Header }): Issue[] {
  const [c, l] = [
    (at: number) => central.view.getUint16(central.at + at, true),
    (at: number) => local.view.getUint16(local.at + at, true),
  ]
  // version, flags, method, time, date, checksum, sizes, length of name: 22 bytes that stand in both headers alike
  const differ = [6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28].some((at) => c(at) !== l(at - 2))
  const issues: Issue[] = []
  if (differ || nameOf(central, CENTRAL, c(28)) !== nameOf(local, LOCAL, l(26)))
    issues.push(odd(path, 'the same in both its headers', 'two headers that differ'))
  if (c(30) > 0 || l(28) > 0) issues.push(odd(path, 'no extra field', 'an extra field'))
  if (c(32) > 0) issues.push(odd(path, 'no comment', 'a comment'))
  if ((c(8) & ~UTF8_NAMES) !== 0) issues.push(odd(path, 'no flags', `flags ${c(8)}`))
  if (c(12) !== 0 || c(14) !== NO_DATE) issues.push(odd(path, 'no date: 1980-01-01 00:00', 'another date'))
  if ([34, 36, 38, 40].some((at) => c(at) !== 0) || c(4) !== VERSION)
    issues.push(odd(path, 'no attributes and disk 0', 'others'))
  return issues
}

function nameOf({ view, at }: Header, from: number, length: number): string {
  return new TextDecoder('latin1').decode(new Uint8Array(view.buffer, view.byteOffset + at + from, length))
}

/** Unpacking that still succeeds without the last packed byte did not need it: something hides there. */
function hasBytesBehind(bytes: Uint8Array, { method, dataAt, packedBytes, unpackedBytes }: ZipMember): boolean {
  if (method !== DEFLATED) return packedBytes !== unpackedBytes
  try {
    const packed = bytes.subarray(dataAt, dataAt + packedBytes - 1)
    return inflateSync(packed, { out: new Uint8Array(unpackedBytes + 1) }).length === unpackedBytes
  } catch {
    return false
  }
}

interface Ending {
  readonly end: number
  readonly directoryAt: number
  readonly place: number
  readonly count: number
}

function endIssues(view: DataView, { end, directoryAt, place, count }: Ending): Issue[] {
  const sixteen = (at: number): number => view.getUint16(end + at, true)
  const issues: Issue[] = []
  if (place !== end) issues.push(odd('', 'the end behind the directory', `${end - place} bytes between`))
  if (view.getUint32(end + 12, true) !== place - directoryAt)
    issues.push(odd('', 'the size of the directory', 'another size'))
  if (sixteen(8) !== count || sixteen(10) !== count)
    issues.push(odd('', `${count} files in its count`, 'another count'))
  if (sixteen(4) !== 0 || sixteen(6) !== 0) issues.push(odd('', 'one disk', 'several'))
  return issues
}

function odd(path: string, expected: string, received: string): Issue {
  return statedIssue(path, { expected, received })
}
