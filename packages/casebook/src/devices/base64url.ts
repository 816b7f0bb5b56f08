import { base64urlnopad } from '@scure/base'

/** Bytes as base64url without padding (RFC 4648, section 5). */
export function toBase64url(bytes: Uint8Array): string {
  return base64urlnopad.encode(bytes)
}

/** The bytes; undefined for what is no base64url, or would be written another way: bytes have one text only. */
export function fromBase64url(text: string): Uint8Array | undefined {
  try {
    return base64urlnopad.decode(text)
  } catch {
    return undefined
  }
}
