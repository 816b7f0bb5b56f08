import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'how far a clock was ahead is altered',
  layer: 'record',
  names: 'entry 9',
  tamper: () => relinked((list) => Object.assign(list[8] ?? {}, { clockAheadS: 60 })),
}
