import { resealed, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contested entry is put into the record as if it had been taken',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => resealed((list) => list.with(12, (list[12] as Loose).body['entry'] as Loose)),
}
