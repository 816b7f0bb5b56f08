import type { ReceiptBody, ReceiptForm } from '@rillmark/casebook/custody/receipt-form.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { fetchPatiently } from '../sync/patient-fetch.ts'

export type OpenedForm = ReceiptForm & { readonly expires: string }

/** What asking with a link can come to. */
export type Asked<T> =
  | { readonly kind: 'ok'; readonly value: T }
  | { readonly kind: 'no way in'; readonly words: string }
  | { readonly kind: 'refused'; readonly issues: readonly Issue[] }
  | { readonly kind: 'unreachable' }

/** A 403 says nothing of the link: a proxy in between, or another site, may not ask. */
const ENDED: ReadonlySet<number> = new Set([401, 404])

/** The consignment a link opens. The token travels in a header, never in an address a server would log. */
export function openReceipt(token: string): Promise<Asked<OpenedForm>> {
  return ask(token, { method: 'GET' })
}

/** Sends the receipt of that consignment. */
export function sendReceipt(token: string, receipt: ReceiptBody): Promise<Asked<unknown>> {
  return ask(token, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(receipt),
  })
}

async function ask<T>(token: string, init: { method: string; headers?: object; body?: string }): Promise<Asked<T>> {
  let response: Response
  try {
    response = await fetchPatiently('/api/receipt', {
      ...init,
      cache: 'no-store',
      headers: { ...init.headers, authorization: `Bearer ${token}` },
    })
  } catch {
    return { kind: 'unreachable' }
  }
  const said: unknown = await response.json().catch(() => undefined)
  if (response.ok) return { kind: 'ok', value: said as T }
  const issues = issuesIn(said)
  if (ENDED.has(response.status)) return { kind: 'no way in', words: issues[0]?.expected ?? '' }
  return issues.length > 0 && response.status < 500 ? { kind: 'refused', issues } : { kind: 'unreachable' }
}

function issuesIn(said: unknown): readonly Issue[] {
  if (typeof said !== 'object' || said === null || !('issues' in said) || !Array.isArray(said.issues)) return []
  return said.issues as readonly Issue[]
}
