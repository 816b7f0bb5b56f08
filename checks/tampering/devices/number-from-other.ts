import { resealed, signedBy, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is given the number of an older one of its device',
  layer: 'record',
  names: 'does not follow',
  tamper: () => resealed((list) => list.with(21, signedBy('desk-1', { ...(list[21] as Loose), deviceSequence: 3 }))),
}
