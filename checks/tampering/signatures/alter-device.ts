import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed entry is given to another device that joined',
  layer: 'signatures',
  names: 'signed by another key',
  tamper: () =>
    altered(15, (entry) => {
      entry.device = 'server'
      entry.deviceSequence = 3
    }),
}
