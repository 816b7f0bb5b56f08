import type { KeptCertificate } from './kept-certificate.ts'

const DAY_MS = 86_400_000
const TOLD_DAYS = 90
const NEW_ONE = 'start with --new-authority and have each device trust the new one (docs/network.md)'

/** What whoever runs the server has to know of its certificate, beyond the fingerprints. */
export function certificateNotices({ leftOut, authorityEnds }: KeptCertificate, nowMs: number): string[] {
  const last = new Date(authorityEnds).toISOString().slice(0, 10)
  return [
    ...(leftOut.length === 0
      ? []
      : [
          `The authority may not vouch for ${leftOut.join(', ')}: browsers warn there. To have it covered, ${NEW_ONE}.`,
        ]),
    ...(authorityEnds > nowMs + TOLD_DAYS * DAY_MS ? [] : [`The authority ends on ${last}. Before that, ${NEW_ONE}.`]),
  ]
}

/** What changed since the certificate before, while the server ran. */
export function changeNotices(before: KeptCertificate, { fingerprints }: KeptCertificate): string[] {
  const { authority, server } = fingerprints
  return [
    ...(before.fingerprints.authority === authority
      ? []
      : [`The authority had ended. Have each device trust the new one (docs/network.md). SHA-256: ${authority}`]),
    ...(before.fingerprints.server === server ? [] : [`The certificate was made anew. SHA-256: ${server}`]),
  ]
}
