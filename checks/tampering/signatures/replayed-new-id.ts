import { resealed, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is repeated under a new id and number with its signature',
  layer: 'signatures',
  names: 'entry 23',
  tamper: () =>
    resealed((list) => [
      ...list,
      { ...(structuredClone(list[21]) as Loose), id: '00000000-0000-8000-8000-000000000002', deviceSequence: 30 },
    ]),
}
