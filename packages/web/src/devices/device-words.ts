import type { InvitedRole, KnownDevice } from '../sync/device-access.ts'

export const ROLE_WORDS: Readonly<Record<InvitedRole, string>> = {
  lead: 'lead',
  sampler: 'sampler',
  reader: 'reader',
}

/** What a role may, in one line. */
export const ROLE_MEANS: Readonly<Record<InvitedRole, string>> = {
  lead: 'reads and writes everything, invites and revokes devices',
  sampler: 'reads everything and writes entries and photos',
  reader: 'reads everything and writes nothing',
}

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS

/** When a device was last heard of. `moment` puts an instant further back into words. */
export function seenWords(
  device: Pick<KnownDevice, 'seen'>,
  around: { nowMs: number; moment: (at: string) => string },
): string {
  if (device.seen === undefined) return 'not yet'
  const agoMs = around.nowMs - Date.parse(device.seen)
  if (agoMs < 2 * MINUTE_MS) return 'just now'
  if (agoMs < HOUR_MS) return `${Math.floor(agoMs / MINUTE_MS)} min ago`
  return around.moment(device.seen)
}

/** How long an invitation is still good: minutes and seconds, hours before that. */
export function leftWords(leftMs: number): string | undefined {
  if (leftMs <= 0) return undefined
  const seconds = Math.ceil(leftMs / 1000)
  if (seconds >= 2 * 3600) return `${Math.floor(seconds / 3600)} h`
  if (seconds >= 3600) return `1 h ${Math.floor((seconds - 3600) / 60)} min`
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`
}
