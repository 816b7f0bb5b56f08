import { moved } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the revocation of a device is moved to the end',
  layer: 'record',
  names: 'does not follow',
  tamper: () => moved(16, 22),
}
