import { dropped } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry in the middle is dropped',
  layer: 'devices',
  names: 'entry 13',
  tamper: () => dropped(10),
}
