import { dropped } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a settlement is dropped',
  layer: 'devices',
  names: 'entry 20',
  tamper: () => dropped(14),
}
