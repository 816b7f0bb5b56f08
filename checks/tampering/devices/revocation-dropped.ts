import { dropped } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the revocation of a device is dropped',
  layer: 'devices',
  names: 'entry 20',
  tamper: () => dropped(16),
}
