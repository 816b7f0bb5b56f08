import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'entries of two devices exchange their signatures',
  layer: 'signatures',
  names: 'signed by another key',
  tamper: () =>
    resealed((list) => {
      const [a, b] = [list[9], list[10]]
      if (a !== undefined && b !== undefined) [a.signature, b.signature] = [b.signature, a.signature]
      return list
    }),
}
