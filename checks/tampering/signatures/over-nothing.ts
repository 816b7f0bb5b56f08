import { signedOver } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'nothing at all is signed',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => signedOver(9, () => ''),
}
