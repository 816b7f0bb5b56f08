import { askServer } from '../sync/server-port.ts'

/** A link made for a laboratory, as the desk sees it; what opens it was told once, when it was made. */
export interface ConsignmentLink {
  readonly link: number
  readonly consignment: string
  readonly made: string
  readonly by: string
  readonly expires: string
  readonly received?: string
  readonly revoked?: string
}

const address = (investigation: string): string =>
  `/api/investigations/${encodeURIComponent(investigation)}/consignment-links`

/** @throws Unreachable | Refused */
export async function linksOf(investigation: string): Promise<readonly ConsignmentLink[]> {
  return (await askServer<{ links: readonly ConsignmentLink[] }>(address(investigation))).links
}

/** @throws Unreachable | Refused */
export function makeLink(
  investigation: string,
  asked: { consignment: string; days: number },
): Promise<{ url: string; link: number; expires: string }> {
  return askServer(address(investigation), post(asked))
}

/** @throws Unreachable | Refused */
export async function revokeLink(investigation: string, link: number): Promise<void> {
  await askServer(`${address(investigation)}/${link}/revocation`, post({}))
}

function post(body: object): RequestInit {
  return { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
}

/** Where a link stands, in words. */
export function linkState({ received, revoked, expires }: ConsignmentLink, nowMs: number): string {
  if (received !== undefined) return 'receipt written'
  if (revoked !== undefined) return 'taken back'
  return Date.parse(expires) <= nowMs ? 'ended' : 'open'
}
