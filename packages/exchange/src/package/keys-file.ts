import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'

export const KEYS_FORMAT = 'rillmark/keys@1'

interface ListedDevice {
  readonly device: string
  readonly name: string
  readonly role: string
  readonly key: DeviceKey
  /** RFC 7638, SHA-256, hexadecimal: the name by which signatures point at the key */
  readonly thumbprint: string
  /** number of the entry by which it joined */
  readonly joined: number
  revoked?: { readonly entry: number; readonly reason: string }
}

/** The public keys of a record's devices, for whoever reads the package with other tools. All of it stands in the record too. */
export function keysFile(entries: readonly Entry[]): object {
  const devices = new Map<string, ListedDevice>()
  for (const [index, entry] of entries.entries()) {
    if (entry.kind === 'device.joined' && !devices.has(entry.device)) {
      const { name, role, key } = entry.body
      devices.set(entry.device, {
        device: entry.device,
        name,
        role,
        key,
        thumbprint: thumbprint(key),
        joined: index + 1,
      })
    }
    if (entry.kind !== 'device.revoked') continue
    const revoked = devices.get(entry.body.device)
    if (revoked !== undefined) revoked.revoked ??= { entry: index + 1, reason: entry.body.reason }
  }
  return { format: KEYS_FORMAT, devices: [...devices.values()] }
}
