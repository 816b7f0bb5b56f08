const TIME_BITS = 48
const VERSION_7 = 0x70
const VARIANT = 0x80

/** A UUID of version 7 (RFC 9562, section 5.7): milliseconds since 1970 in front, the rest random, so that ids sort by time. */
export function uuid7(now = Date.now(), random = crypto.getRandomValues(new Uint8Array(16))): string {
  const bytes = Uint8Array.from(random)
  for (let byte = 0; byte < TIME_BITS / 8; byte += 1)
    bytes[byte] = Math.floor(now / 2 ** (TIME_BITS - 8 * (byte + 1))) % 256
  bytes[6] = VERSION_7 | ((bytes[6] ?? 0) & 0x0f)
  bytes[8] = VARIANT | ((bytes[8] ?? 0) & 0x3f)
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}
