import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'two entries of one device exchange their signatures',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    resealed((list) => {
      const [a, b] = [list[8], list[9]]
      if (a !== undefined && b !== undefined) [a.signature, b.signature] = [b.signature, a.signature]
      return list
    }),
}
