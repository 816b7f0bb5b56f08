import { unsignedNext, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'somebody without a key revokes a device',
  layer: 'devices',
  names: 'the device of a lead',
  tamper: () =>
    appended(unsignedNext('desk-0', { kind: 'device.revoked', body: { device: 'phone-1', reason: 'not wanted' } })),
}
