// A ZIP archive taken apart into its headers and put together again, so that each byte of them can be forged.
import { readZipDirectory } from '@rillmark/exchange/package/zip-directory.ts'
import { sound } from './package-way.ts'

// Field places: PKWARE .ZIP File Format Specification (APPNOTE), sections 4.3.7, 4.3.12, 4.3.16.
const LOCAL = 30
const CENTRAL = 46
const END = 22

export interface Member {
  readonly local: DataView
  readonly central: DataView
  localName: Uint8Array
  centralName: Uint8Array
  localExtra: Uint8Array
  centralExtra: Uint8Array
  comment: Uint8Array
  data: Uint8Array
  /** bytes that stand before it, and behind it */
  before: Uint8Array
  behind: Uint8Array
}

export interface Archive {
  members: Member[]
  /** order in the directory, where it differs */
  listed: Member[]
  beforeDirectory: Uint8Array
  beforeEnd: Uint8Array
  comment: Uint8Array
  behind: Uint8Array
  /** has the last word on the end record */
  end: (view: DataView) => void
}

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text)
const NOTHING = new Uint8Array()

/** The sound package with its archive forged; offsets, lengths and counts are made to fit afterwards. */
export function forgedArchive(change: (archive: Archive) => void): Uint8Array {
  const members = takenApart()
  const archive: Archive = {
    members,
    listed: [],
    beforeDirectory: NOTHING,
    beforeEnd: NOTHING,
    comment: NOTHING,
    behind: NOTHING,
    end: () => undefined,
  }
  change(archive)
  return putTogether(archive)
}

/** The member of a path. */
export function member({ members }: Archive, path: string): Member {
  const found = members.find(({ centralName }) => new TextDecoder().decode(centralName) === path)
  if (found === undefined) throw new RangeError(`Cannot forge ${path} because it is not there`)
  return found
}

/** Single bytes of the finished archive patched: nothing else is made to fit. */
export function patched(change: (view: DataView, at: { end: number; directory: number }) => void): Uint8Array {
  const copy = Uint8Array.from(sound)
  const view = new DataView(copy.buffer)
  const end = copy.length - END
  change(view, { end, directory: view.getUint32(end + 16, true) })
  return copy
}

function takenApart(): Member[] {
  const read = readZipDirectory(sound)
  if (!read.ok) throw new RangeError('Cannot forge the archive because it is not sound')
  const view = new DataView(sound.buffer, sound.byteOffset, sound.byteLength)
  let place = view.getUint32(sound.length - END + 16, true)
  return read.members.map(({ path, dataAt, packedBytes }) => {
    const name = utf8(path)
    const localAt = view.getUint32(place + 42, true)
    const found: Member = {
      local: copyOf(localAt, LOCAL),
      central: copyOf(place, CENTRAL),
      localName: name,
      centralName: name,
      localExtra: NOTHING,
      centralExtra: NOTHING,
      comment: NOTHING,
      data: sound.slice(dataAt, dataAt + packedBytes),
      before: NOTHING,
      behind: NOTHING,
    }
    place += CENTRAL + name.length
    return found
  })
}

function copyOf(at: number, length: number): DataView {
  return new DataView(Uint8Array.from(sound.subarray(at, at + length)).buffer)
}

function putTogether(archive: Archive): Uint8Array {
  const parts: Uint8Array[] = []
  const offsets = new Map<Member, number>()
  const length = (): number => parts.reduce((sum, part) => sum + part.length, 0)
  for (const each of archive.members) {
    parts.push(each.before)
    offsets.set(each, length())
    each.local.setUint16(26, each.localName.length, true)
    each.local.setUint16(28, each.localExtra.length, true)
    parts.push(raw(each.local), each.localName, each.localExtra, each.data, each.behind)
  }
  parts.push(archive.beforeDirectory)
  const directory = length()
  const listed = archive.listed.length > 0 ? archive.listed : archive.members
  for (const each of listed) {
    each.central.setUint16(28, each.centralName.length, true)
    each.central.setUint16(30, each.centralExtra.length, true)
    each.central.setUint16(32, each.comment.length, true)
    each.central.setUint32(42, offsets.get(each) ?? 0, true)
    parts.push(raw(each.central).slice(), each.centralName, each.centralExtra, each.comment)
  }
  const size = length() - directory
  const end = new DataView(new ArrayBuffer(END))
  end.setUint32(0, 0x06054b50, true)
  end.setUint16(8, listed.length, true)
  end.setUint16(10, listed.length, true)
  end.setUint32(12, size, true)
  end.setUint32(16, directory, true)
  end.setUint16(20, archive.comment.length, true)
  archive.end(end)
  return new Uint8Array(Buffer.concat([...parts, archive.beforeEnd, raw(end), archive.comment, archive.behind]))
}

function raw(view: DataView): Uint8Array {
  return new Uint8Array(view.buffer)
}
