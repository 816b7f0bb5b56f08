import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a clock that was right is said to have been ahead',
  layer: 'record',
  names: 'entry 6',
  tamper: () => relinked((list) => Object.assign(list[5] ?? {}, { clockAheadS: 90 })),
}
