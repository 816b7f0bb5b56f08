const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_'
const BITS_A_LETTER = 6
const BITS_A_BYTE = 8

/** Bytes as base64url without padding (RFC 4648, section 5). */
export function toBase64url(bytes: Uint8Array): string {
  let [text, held, bits] = ['', 0, 0]
  for (const byte of bytes) {
    held = (held << BITS_A_BYTE) | byte
    bits += BITS_A_BYTE
    while (bits >= BITS_A_LETTER) {
      bits -= BITS_A_LETTER
      text += ALPHABET.charAt((held >> bits) & 0x3f)
    }
    held &= (1 << bits) - 1
  }
  return bits === 0 ? text : text + ALPHABET.charAt((held << (BITS_A_LETTER - bits)) & 0x3f)
}

/** The bytes; undefined for what is no base64url, or would be written another way: bytes have one text only. */
export function fromBase64url(text: string): Uint8Array | undefined {
  const bytes: number[] = []
  let [held, bits] = [0, 0]
  for (const letter of text) {
    const value = ALPHABET.indexOf(letter)
    if (value < 0) return undefined
    held = (held << BITS_A_LETTER) | value
    bits += BITS_A_LETTER
    if (bits < BITS_A_BYTE) continue
    bits -= BITS_A_BYTE
    bytes.push(held >> bits)
    held &= (1 << bits) - 1
  }
  return held === 0 && bits < BITS_A_LETTER ? Uint8Array.from(bytes) : undefined
}
