import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'how far a clock was ahead is taken out',
  layer: 'record',
  names: 'entry 8',
  tamper: () =>
    relinked((list) => {
      delete (list[7] as { clockAheadS?: number }).clockAheadS
    }),
}
