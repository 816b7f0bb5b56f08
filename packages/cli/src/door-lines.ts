import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { certificateNotices } from '@rillmark/server/certificate/certificate-notices.ts'
import type { Serving } from '@rillmark/server/api/serve.ts'

/** Black on white whatever the colours of the terminal, so that a camera reads it. */
const ON_PAPER = ['\u001b[30;107m', '\u001b[0m'] as const

/** What has to be known to come in from outside: how to tell this server from another, and how its first lead gets in. */
export async function doorLines(
  { certificate, keyThumbprint, invitation }: Pick<Serving, 'certificate' | 'keyThumbprint' | 'invitation'>,
  { terminal }: { terminal: boolean },
): Promise<string[]> {
  return [
    ...(certificate === undefined ? [] : certificateLines(certificate)),
    ...(keyThumbprint === undefined
      ? []
      : [`Key of its receipts:  ${hashGroups(keyThumbprint)} (to compare with a receipt, docs/package-format.md)`]),
    ...(invitation === undefined ? [] : await invitationLines(invitation, terminal)),
  ]
}

function certificateLines({ kept }: NonNullable<Serving['certificate']>): string[] {
  const { fingerprints, isNewAuthority } = kept
  return [
    `Authority, SHA-256:   ${fingerprints.authority}`,
    `Certificate, SHA-256: ${fingerprints.server}`,
    isNewAuthority
      ? 'The authority is new: tell each device once to trust it (docs/network.md).'
      : 'Devices that trust the authority already need nothing more.',
    ...certificateNotices(kept, Date.now()),
  ]
}

async function invitationLines(
  invitation: NonNullable<Serving['invitation']>,
  terminal: boolean,
): Promise<readonly string[]> {
  // drawing codes is a large library: loaded where there is one to draw
  const { qrLines } = await import('@rillmark/exchange/access/qr-lines.ts')
  const [before, after] = terminal ? ON_PAPER : ['', '']
  const until = new Date(invitation.expires).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })
  return [
    `A lead joins with this, once, until ${until}:`,
    ...qrLines(invitation.url).map((line) => `${before}${line}${after}`),
    invitation.url,
  ]
}
