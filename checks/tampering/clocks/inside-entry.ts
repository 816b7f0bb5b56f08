import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the offset of a clock is written into the entry in place of the link',
  layer: 'record',
  names: 'not an entry',
  tamper: () =>
    relinked((list) => {
      const link = list[8]
      if (link !== undefined) Object.assign(link.entry, { clockAheadS: 3600 })
    }),
}
