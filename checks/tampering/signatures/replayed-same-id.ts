import { resealed, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is repeated as it is, at the end',
  layer: 'record',
  names: 'was used before',
  tamper: () => resealed((list) => [...list, structuredClone(list[21]) as Loose]),
}
