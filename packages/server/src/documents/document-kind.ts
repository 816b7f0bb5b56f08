import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { ServerKey } from '../devices/server-key.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type * as z from 'zod'

/** What a document is made from. */
export interface DocumentContext<Query = unknown> {
  readonly investigation: string
  readonly state: InvestigationState
  readonly links: readonly Link[]
  readonly head: Head
  /** checked by the kind's own schema */
  readonly query: Query
  /** the bytes of an attachment, as far as it is kept here */
  readonly attachment: (sha256: string) => Promise<Uint8Array | undefined>
  readonly hand: DocumentHand
}

/** By whom a document is given, where it is signed, and when. */
export interface DocumentHand {
  readonly key: () => ServerKey
  readonly now: () => string
}

export type DocumentContent = string | Uint8Array

/** A document, or why there is none yet. */
export type Made = DocumentContent | { readonly issues: readonly Issue[] }

/** One kind of document of an investigation. */
export interface DocumentKind<Query extends z.ZodType = z.ZodType> {
  readonly title: string
  readonly contentType: string
  readonly fileName: (context: { investigation: string; query: z.infer<Query> }) => string
  /** the query parameters it takes; none where absent */
  readonly query?: Query
  /** may take long (a PDF, a package): made beside the server's main thread */
  readonly heavy?: boolean
  readonly make: (context: DocumentContext<z.infer<Query>>) => Made | Promise<Made>
}

/** Ties the types of a kind together. */
export function documentKind<Query extends z.ZodType>(kind: DocumentKind<Query>): DocumentKind {
  return kind as unknown as DocumentKind
}
