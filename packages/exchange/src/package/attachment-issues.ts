import { type Link, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentsIn } from './attachments-in.ts'
import { ATTACHMENT_LIMIT_BYTES, mediaTypeOf } from './media-type.ts'

/** The attachments among a package's files, by the hash in their name. */
export function attachmentsOf(files: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  const found = [...files].flatMap(([path, bytes]) => {
    const sha256 = /^attachments\/([0-9a-f]{64})\./.exec(path)?.[1]
    return sha256 === undefined ? [] : [[sha256, bytes] as const]
  })
  return new Map(found)
}

/** Attachments that are not what their name says, no picture, too large, or named by no entry. */
export function attachmentIssues(attachments: ReadonlyMap<string, Uint8Array>, links: readonly Link[]): Issue[] {
  const named = new Set(attachmentsIn(links.map(({ entry }) => entry)))
  return [...attachments].flatMap(([sha256, bytes]) => {
    const path = `attachments/${sha256}`
    if (sha256OfBytes(bytes) !== sha256)
      return [statedIssue(path, { expected: 'bytes with the hash in its name', received: 'other bytes' })]
    if (bytes.length > ATTACHMENT_LIMIT_BYTES)
      return [statedIssue(path, { expected: `at most ${ATTACHMENT_LIMIT_BYTES} bytes`, received: bytes.length })]
    if (mediaTypeOf(bytes) === undefined)
      return [statedIssue(path, { expected: 'a JPEG, PNG or WebP picture', received: 'something else' })]
    return named.has(sha256)
      ? []
      : [statedIssue(path, { expected: 'an attachment the record names', received: 'one it does not name' })]
  })
}
