import { altered } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed amendment is turned on another entry',
  layer: 'signatures',
  names: 'entry 19',
  tamper: () =>
    altered(19, (entry) => {
      entry.corrects.entry = String(entries[8]?.id)
    }),
}
