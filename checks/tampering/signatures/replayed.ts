import { resealed, type Loose } from '../forge.ts'
import { type PackageWay, otherEntries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry of another investigation is put here with its signature',
  layer: 'record',
  names: 'it belongs to investigation quay-hotel',
  tamper: () => resealed((list) => list.toSpliced(8, 1, structuredClone(otherEntries[8]) as unknown as Loose)),
}
