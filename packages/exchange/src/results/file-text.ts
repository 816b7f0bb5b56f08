export interface FileText {
  readonly text: string
  readonly encoding: 'UTF-8' | 'UTF-16LE' | 'UTF-16BE' | 'Windows-1252'
}

/**
 * The text of a file in whichever of the usual encodings it was saved: by its byte order mark, else by the zero bytes of UTF-16, else
 * UTF-8 where it is valid, else Windows-1252, in which every byte means something.
 */
export function fileText(bytes: Uint8Array): FileText {
  const encoding = encodingOf(bytes)
  const text = new TextDecoder(encoding.toLowerCase()).decode(bytes)
  return { text: text.replace(/^\uFEFF/, ''), encoding }
}

function encodingOf(bytes: Uint8Array): FileText['encoding'] {
  const [a, b] = bytes
  if (a === 0xff && b === 0xfe) return 'UTF-16LE'
  if (a === 0xfe && b === 0xff) return 'UTF-16BE'
  const wide = zeroPattern(bytes.subarray(0, SAMPLE_BYTES))
  if (wide !== undefined) return wide
  return isUtf8(bytes) ? 'UTF-8' : 'Windows-1252'
}

const SAMPLE_BYTES = 4096

/** Western text in UTF-16 without a mark has a zero in most bytes of one parity and almost none of the other. */
function zeroPattern(sample: Uint8Array): 'UTF-16LE' | 'UTF-16BE' | undefined {
  let [even, odd] = [0, 0]
  for (const [index, byte] of sample.entries()) {
    if (byte !== 0) continue
    if (index % 2 === 0) even += 1
    else odd += 1
  }
  const most = sample.length * 0.3
  if (odd > most && even < odd / 10) return 'UTF-16LE'
  return even > most && odd < even / 10 ? 'UTF-16BE' : undefined
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return true
  } catch {
    return false
  }
}
