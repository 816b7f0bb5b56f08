import { nextBy, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a sampler revokes another device',
  layer: 'devices',
  names: 'the device of a lead',
  tamper: () =>
    appended(nextBy('phone-1', { kind: 'device.revoked', body: { device: 'tablet-1', reason: 'not wanted' } })),
}
