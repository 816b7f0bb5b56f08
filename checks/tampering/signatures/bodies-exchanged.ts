import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'two signed samples exchange what they say',
  layer: 'signatures',
  names: 'entry 8',
  tamper: () =>
    resealed((list) => {
      const [a, b] = [list[7], list[8]]
      if (a !== undefined && b !== undefined) [a.body, b.body] = [b.body, a.body]
      return list
    }),
}
