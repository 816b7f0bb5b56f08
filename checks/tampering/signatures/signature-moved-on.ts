import { altered, type Loose } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry takes over the signature of the one it amends',
  layer: 'signatures',
  names: 'entry 19',
  tamper: () =>
    altered(19, (entry) => {
      entry.signature = structuredClone(entries[7]?.signature) as Loose['signature']
    }),
}
