import type { Appliers, EffectiveEntry } from '../state/effective.ts'
import type { DeviceKey, DeviceRole } from './kinds.ts'

/** A device that joined with a key. */
export interface JoinedDevice {
  readonly name: string
  readonly role: DeviceRole
  readonly key: DeviceKey
  readonly joined: EffectiveEntry<'device.joined'>
  /** present when it writes nothing more */
  revoked?: EffectiveEntry<'device.revoked'>
}

/** Devices that joined, by id. One that is not here writes unsigned: an old record, an import, a script. */
export type DevicesState = Map<string, JoinedDevice>

export const emptyDevices = (): DevicesState => new Map()

export const devicesAppliers: Appliers<DevicesState> = {
  'device.joined': (devices, entry) => {
    if (!devices.has(entry.device)) devices.set(entry.device, { ...entry.body, joined: entry })
  },
  'device.revoked': (devices, entry) => {
    const device = devices.get(entry.body.device)
    if (device !== undefined) device.revoked ??= entry
  },
}
