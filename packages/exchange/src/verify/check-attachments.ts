import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentIssues, attachmentsOf } from '../package/attachment-issues.ts'
import { attachmentsIn } from '../package/attachments-in.ts'
import type { Manifest } from '../package/manifest.ts'
import { mediaTypeOf } from '../package/media-type.ts'

export interface PackageRead {
  readonly manifest: Manifest
  readonly files: ReadonlyMap<string, Uint8Array>
  readonly links: readonly Link[]
  readonly entries: readonly Entry[]
}

/** Pictures that are not what their entry says, are gone without being said to be, or are said to be gone and are there. */
export function checkAttachments({ manifest, files, links, entries }: PackageRead): Issue[] {
  const attachments = attachmentsOf(files)
  const missing = new Set(manifest.missing)
  const lost = attachmentsIn(entries).filter((sha256) => !attachments.has(sha256) && !missing.has(sha256))
  const { counts } = manifest
  return [
    ...attachmentIssues(attachments, links),
    ...lost.map((sha256) =>
      statedIssue(`attachments/${sha256}`, {
        expected: 'the picture an entry names',
        received: 'nothing, nor is it listed as missing',
      }),
    ),
    ...manifest.missing
      .filter((sha256) => attachments.has(sha256))
      .map((sha256) =>
        statedIssue(`attachments/${sha256}`, { expected: 'no picture: it is listed as missing', received: 'one' }),
      ),
    ...(counts.attachments === attachments.size
      ? []
      : [
          statedIssue('manifest.json counts.attachments', {
            expected: String(attachments.size),
            received: counts.attachments,
          }),
        ]),
    ...extensionIssues(files),
    ...entries.flatMap((entry, index) => claimIssues(entry, { number: index + 1, attachments })),
  ]
}

/** What the name ends in is what the picture is. */
function extensionIssues(files: ReadonlyMap<string, Uint8Array>): Issue[] {
  const endings: Readonly<Record<string, string>> = { jpg: 'image/jpeg', png: 'image/png', webp: 'image/webp' }
  return [...files].flatMap(([path, bytes]) => {
    const ending = /^attachments\/.*\.([a-z]+)$/.exec(path)?.[1]
    const type = mediaTypeOf(bytes)
    if (ending === undefined || type === undefined || endings[ending] === type) return []
    return [statedIssue(path, { expected: `a picture of the kind its name says`, received: type })]
  })
}

/** What a photo's entry says of its size and kind. */
function claimIssues(
  entry: Entry,
  { number, attachments }: { number: number; attachments: ReadonlyMap<string, Uint8Array> },
): Issue[] {
  if (entry.kind !== 'photo.taken') return []
  const { sha256, bytes, mediaType } = entry.body
  const picture = attachments.get(sha256)
  if (picture === undefined || (picture.length === bytes && mediaTypeOf(picture) === mediaType)) return []
  const received = `${picture.length} bytes of ${mediaTypeOf(picture) ?? 'another kind'}`
  return [
    statedIssue(`attachments/${sha256}`, {
      expected: `${bytes} bytes of ${mediaType}, as entry ${number} says`,
      received,
    }),
  ]
}
