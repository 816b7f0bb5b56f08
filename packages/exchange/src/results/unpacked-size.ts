import { Unzip, UnzipInflate } from 'fflate'

export type UnpackedSize =
  | { readonly kind: 'fits'; readonly bytes: number }
  | { readonly kind: 'too large' }
  | { readonly kind: 'not a zip file' }

/**
 * How large the content of a zip archive really is, found by unpacking it piece by piece and forgetting the pieces, stopping at the
 * limit. The sizes an archive states about itself are not believed: an archive built to exhaust memory states what it likes.
 */
export function unpackedSize(bytes: Uint8Array, limitBytes: number): UnpackedSize {
  let [total, files] = [0, 0]
  const unzip = new Unzip((file) => {
    files += 1
    if (files > MOST_FILES) throw new Beyond()
    file.ondata = (error, chunk) => {
      if (error !== null) throw error
      total += chunk.length
      if (total > limitBytes) throw new Beyond()
    }
    file.start()
  })
  unzip.register(UnzipInflate)
  try {
    for (let at = 0; at < bytes.length; at += PIECE_BYTES)
      unzip.push(bytes.subarray(at, at + PIECE_BYTES), at + PIECE_BYTES >= bytes.length)
  } catch (error) {
    return error instanceof Beyond ? { kind: 'too large' } : { kind: 'not a zip file' }
  }
  return files === 0 ? { kind: 'not a zip file' } : { kind: 'fits', bytes: total }
}

class Beyond extends Error {}

const MOST_FILES = 5000
/** small pieces, so that a thousandfold packed one cannot unpack far beyond the limit before it is noticed */
const PIECE_BYTES = 16_384
