import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a clock ahead is said to have been behind',
  layer: 'record',
  names: 'entry 10',
  tamper: () => relinked((list) => Object.assign(list[9] ?? {}, { clockAheadS: -3600 })),
}
