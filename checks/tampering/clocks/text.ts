import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a clock is said in text to be ahead',
  layer: 'record',
  names: 'clockAheadS',
  tamper: () => relinked((list) => Object.assign(list[8] ?? {}, { clockAheadS: '3600' })),
}
