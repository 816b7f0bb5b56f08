import { LONG_MS } from '../sync/patient-fetch.ts'
import { fetchInSession } from '../sync/session.ts'

/** A document the server made, or in words why there is none. */
export type FetchedDocument =
  | { readonly ok: true; readonly blob: Blob; readonly fileName: string }
  | { readonly ok: false; readonly message: string }

export interface DocumentAsked {
  readonly investigation: string
  /** e.g. `labels.pdf` */
  readonly kind: string
  readonly query?: Readonly<Record<string, string | undefined>> | undefined
}

/** Asks the server for a document of an investigation. Documents are made there, from the entries that have reached it. */
export async function fetchDocument({ investigation, kind, query = {} }: DocumentAsked): Promise<FetchedDocument> {
  const given = Object.entries(query).flatMap(([key, value]) => (value === undefined ? [] : [[key, value]]))
  const search = new URLSearchParams(given).toString()
  const path = `/api/investigations/${encodeURIComponent(investigation)}/documents/${encodeURIComponent(kind)}`
  try {
    const response = await fetchInSession(search === '' ? path : `${path}?${search}`, { patienceMs: LONG_MS })
    if (!response.ok) return { ok: false, message: await refusal(response) }
    return { ok: true, blob: await response.blob(), fileName: fileNameOf(response) ?? `${investigation}-${kind}` }
  } catch {
    return {
      ok: false,
      message: 'The server can’t be reached, and papers are made there. Nothing is lost; try again when it answers.',
    }
  }
}

/** Hands a fetched document to the browser to save. */
export function saveDocument({ blob, fileName }: { blob: Blob; fileName: string }): void {
  const address = URL.createObjectURL(blob)
  const link = document.createElement('a')
  link.href = address
  link.download = fileName
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}

async function refusal(response: Response): Promise<string> {
  if (response.status === 404)
    return 'The server does not have this investigation yet. Wait until its entries are there, then try again.'
  if (response.status >= 500)
    return 'The server could not make the paper. Try again; if it goes on, look at the server’s messages.'
  const said: unknown = await response.json().catch(() => undefined)
  const issues =
    typeof said === 'object' && said !== null && 'issues' in said && Array.isArray(said.issues) ? said.issues : []
  const lines = issues.map(
    (one: { path?: string; expected?: string }) => `${one.path ?? ''}: expected ${one.expected ?? ''}`,
  )
  return lines.length > 0
    ? `The server has no such paper yet (${lines.join('; ')}). Entries may still be on their way.`
    : `The server refused (${response.status}).`
}

function fileNameOf(response: Response): string | undefined {
  return /filename="([^"]+)"/.exec(response.headers.get('content-disposition') ?? '')?.[1]
}
