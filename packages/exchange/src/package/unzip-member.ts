import { inflateSync } from 'fflate'
import type { ZipMember } from './zip-directory.ts'

const STORED = 0

/** Unpacks one member into no more room than it declared; undefined when its bytes are damaged or more than declared. */
export function unzipMember(archive: Uint8Array, member: ZipMember): Uint8Array | undefined {
  const { dataAt, packedBytes, unpackedBytes, method } = member
  const packed = archive.subarray(dataAt, dataAt + packedBytes)
  const bytes = method === STORED ? packed : inflated(packed, unpackedBytes)
  if (bytes === undefined || bytes.length !== unpackedBytes) return undefined
  return crc32(bytes) === member.crc32 ? bytes : undefined
}

/** One byte more than declared is room enough to notice that there is more. */
function inflated(packed: Uint8Array, declared: number): Uint8Array | undefined {
  try {
    return inflateSync(packed, { out: new Uint8Array(declared + 1) })
  } catch {
    return undefined
  }
}

/** Reversed polynomial of CRC-32 (PKWARE APPNOTE, section 4.4.7). */
const POLYNOMIAL = 0xedb88320

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte
  for (let bit = 0; bit < 8; bit += 1) value = (value & 1) === 1 ? (value >>> 1) ^ POLYNOMIAL : value >>> 1
  return value
})

export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff
  for (const byte of bytes) value = (value >>> 8) ^ (TABLE[(value ^ byte) & 0xff] ?? 0)
  return (value ^ 0xffffffff) >>> 0
}
