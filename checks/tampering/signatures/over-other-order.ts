import { signedOver } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is signed over its fields in another order than the canonical one',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    signedOver(9, (entry) => {
      const { signature: _, ...rest } = entry
      return JSON.stringify(Object.fromEntries(Object.entries(rest).toReversed()))
    }),
}
