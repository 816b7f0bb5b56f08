import { nextBy, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device that never joined is revoked',
  layer: 'devices',
  names: 'a device that joined this record',
  tamper: () => appended(nextBy('desk-1', { kind: 'device.revoked', body: { device: 'phone-7', reason: 'unknown' } })),
}
