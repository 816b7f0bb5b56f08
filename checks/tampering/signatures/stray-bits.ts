import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the last letter of a signature carries bits that count for nothing',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    altered(9, (entry) => {
      const { value } = entry.signature
      const last = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_'
      entry.signature.value = `${value.slice(0, -1)}${last.charAt(last.indexOf(value.slice(-1)) + 1)}`
    }),
}
