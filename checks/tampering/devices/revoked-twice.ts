import { nextBy, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device is revoked a second time',
  layer: 'devices',
  names: 'not revoked yet',
  tamper: () => appended(nextBy('desk-1', { kind: 'device.revoked', body: { device: 'phone-2', reason: 'again' } })),
}
