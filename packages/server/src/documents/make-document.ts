import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { emptyHead, headAfter, type Link } from '@rillmark/casebook/chain/link.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { openServerKey } from '../devices/server-key.ts'
import type { DocumentKind, Made } from './document-kind.ts'

export interface DocumentRequest {
  readonly kind: DocumentKind
  readonly investigation: string
  /** already checked */
  readonly query: unknown
}

export interface DocumentSources {
  readonly links: (investigation: string) => Promise<readonly Link[]>
  readonly attachment: (sha256: string) => Promise<Uint8Array | undefined>
  /** the data folder, whose key signs */
  readonly folder: string
}

/** Makes one document from the record as it stands. */
export async function makeDocument(
  request: DocumentRequest,
  { links: read, attachment, folder }: DocumentSources,
): Promise<Made> {
  const { kind, investigation, query } = request
  const links = await read(investigation)
  const state = derive(investigation, entriesOf(links))
  const head = headAfter(emptyHead(investigation), links)
  const hand = { key: () => openServerKey(folder), now: () => new Date().toISOString() }
  return kind.make({ investigation, state, links, head, query, attachment, hand })
}
