export const ATTACHMENT_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const
export type AttachmentType = (typeof ATTACHMENT_TYPES)[number]

export const ATTACHMENT_EXTENSIONS: Readonly<Record<AttachmentType, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
}

/** The largest attachment kept: a phone's photo at full size is a few megabytes. */
export const ATTACHMENT_LIMIT_BYTES = 20 * 1024 * 1024

/** Opening bytes by which each format is known: JPEG (ITU-T T.81, SOI marker), PNG (W3C PNG, section 5.2), WebP (RFC 9649, section 2.4). */
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
const JPEG = [0xff, 0xd8, 0xff]
const RIFF = [0x52, 0x49, 0x46, 0x46]
const WEBP = [0x57, 0x45, 0x42, 0x50]
const WEBP_AT = 8

/** What a file is by its own first bytes, whatever anyone calls it; undefined for anything that is not kept. */
export function mediaTypeOf(bytes: Uint8Array): AttachmentType | undefined {
  if (startsWith(bytes, PNG)) return 'image/png'
  if (startsWith(bytes, JPEG)) return 'image/jpeg'
  if (startsWith(bytes, RIFF) && startsWith(bytes.subarray(WEBP_AT), WEBP)) return 'image/webp'
  return undefined
}

function startsWith(bytes: Uint8Array, magic: readonly number[]): boolean {
  return magic.every((byte, index) => bytes[index] === byte)
}
