import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { type AttachmentType, ATTACHMENT_LIMIT_BYTES, mediaTypeOf } from '@rillmark/exchange/package/media-type.ts'
import { abandoned, type DeviceDatabase, DURABLE } from '../ledger/database.ts'

export interface StoredAttachment {
  readonly sha256: string
  readonly mediaType: AttachmentType
  readonly bytes: number
}

/** Keeps a picture on this device; durable when the promise resolves. @throws RangeError for what is no picture or too large */
export async function keepAttachment(database: DeviceDatabase, file: Blob): Promise<StoredAttachment> {
  if (file.size > ATTACHMENT_LIMIT_BYTES)
    throw new RangeError(
      `Cannot keep a picture of more than ${ATTACHMENT_LIMIT_BYTES / 1024 ** 2} MB: got ${file.size} bytes`,
    )
  const content = new Uint8Array(await file.arrayBuffer())
  const mediaType = mediaTypeOf(content)
  if (mediaType === undefined) throw new RangeError('Cannot keep a file that is no JPEG, PNG or WebP picture')
  const sha256 = sha256OfBytes(content)
  const transaction = database.transaction(['attachments', 'unsent'], 'readwrite', DURABLE)
  const [attachments, unsent] = [transaction.objectStore('attachments'), transaction.objectStore('unsent')]
  try {
    if ((await attachments.getKey(sha256)) === undefined) {
      await attachments.put({ sha256, mediaType, content })
      await unsent.put({ bytes: content.length, named: false }, sha256)
    }
    await transaction.done
  } catch (error) {
    await abandoned(transaction)
    throw error
  }
  return { sha256, mediaType, bytes: content.length }
}

/** Takes a picture off this device that no entry names, for another was taken instead; one that an entry names stays. */
export async function dropUnnamed(database: DeviceDatabase, sha256: string): Promise<boolean> {
  const transaction = database.transaction(['attachments', 'unsent'], 'readwrite', DURABLE)
  const [attachments, unsent] = [transaction.objectStore('attachments'), transaction.objectStore('unsent')]
  const dropped = (await unsent.get(sha256))?.named === false
  if (dropped) await Promise.all([attachments.delete(sha256), unsent.delete(sha256)])
  await transaction.done
  return dropped
}

/** An address to show a picture from: this device's copy, or else the server's. Revoke it when it starts with `blob:`. */
export async function attachmentAddress(database: DeviceDatabase, sha256: string): Promise<string> {
  const kept = await database.get('attachments', sha256)
  return kept === undefined
    ? `/api/attachments/${sha256}`
    : URL.createObjectURL(new Blob([kept.content], { type: kept.mediaType }))
}
