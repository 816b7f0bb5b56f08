import { resealed, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a settlement is repeated under a new id with its signature',
  layer: 'signatures',
  names: 'entry 23',
  tamper: () =>
    resealed((list) => [
      ...list,
      { ...structuredClone(list[13] as Loose), id: '00000000-0000-8000-8000-000000000004', deviceSequence: 30 },
    ]),
}
