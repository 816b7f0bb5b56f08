import { moved } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a settlement is moved before what it settles',
  layer: 'devices',
  names: 'entry 13',
  tamper: () => moved(14, 13),
}
