import { moved } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device joins after it wrote',
  layer: 'record',
  names: 'does not follow',
  tamper: () => moved(4, 9),
}
