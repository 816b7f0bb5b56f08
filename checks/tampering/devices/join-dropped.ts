import { dropped } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the joining of the server is dropped',
  layer: 'signatures',
  names: 'has not joined',
  tamper: () => dropped(2),
}
