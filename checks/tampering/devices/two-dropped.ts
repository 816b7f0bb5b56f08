import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'two entries are dropped, one behind the other',
  layer: 'devices',
  names: 'entry 12',
  tamper: () => resealed((list) => list.toSpliced(8, 2)),
}
