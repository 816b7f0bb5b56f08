import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a clock is said to be ahead by centuries',
  layer: 'record',
  names: 'clockAheadS',
  tamper: () => relinked((list) => Object.assign(list[8] ?? {}, { clockAheadS: 10_000_000_000 })),
}
