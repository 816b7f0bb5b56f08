import { altered, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device joins without signing it',
  layer: 'signatures',
  names: 'entry 4',
  tamper: () =>
    altered(4, (entry) => {
      delete (entry as Partial<Loose>).signature
    }),
}
