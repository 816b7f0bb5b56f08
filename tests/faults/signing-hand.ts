import { createPrivateKey, sign } from 'node:crypto'
import { toBase64url } from '@rillmark/casebook/devices/base64url.ts'
import { signedText, thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import { draftEntry } from '@rillmark/casebook/entry/draft.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'

const MINUTE_MS = 60_000

export interface HandOptions {
  readonly investigation: string
  readonly device: string
  /** what the device's own clock says, milliseconds since 1970; else a minute more each time */
  readonly clock?: () => number
}

/** Writes one device's entries, each signed by its key as the app does; the first says that the device joined. */
export function signingHand({ investigation, device, clock }: HandOptions) {
  const { key, secret } = testKey(device)
  const privateKey = createPrivateKey({ format: 'jwk', key: { ...key, d: toBase64url(secret) } })
  const thumb = thumbprint(key)
  let deviceSequence = 0
  let next = Date.parse('2026-03-02T08:00:00.000Z')
  const now = (): { instant: string; offset: string } => ({
    instant: new Date(clock?.() ?? (next += MINUTE_MS)).toISOString(),
    offset: '+00:00',
  })
  const make = <K extends Kind>(kind: K, body: BodyOf<K>, extra: Partial<Entry> = {}): Entry => {
    deviceSequence += 1
    const desk = {
      investigation,
      author: 'R. Vale',
      device,
      deviceSequence,
      now: now(),
      newId: () => crypto.randomUUID(),
    }
    const entry = { ...draftEntry(desk, { kind, body }), ...extra } as Entry
    const value = sign('sha256', Buffer.from(signedText(entry)), { key: privateKey, dsaEncoding: 'ieee-p1363' })
    return { ...entry, signature: { key: thumb, value: value.toString('base64url') } }
  }
  const joined = (): Entry => make('device.joined', { name: device, role: 'lead', key })
  return { make, joined }
}
