import { dropped } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the last entry is dropped',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => dropped(22),
}
