import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the reason of a signed amendment is altered',
  layer: 'signatures',
  names: 'entry 19',
  tamper: () =>
    altered(19, (entry) => {
      entry.corrects.reason = 'it was empty'
    }),
}
