import { altered } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is written in the alphabet with plus and slash',
  layer: 'record',
  names: 'signature.value',
  tamper: () =>
    altered(9, (entry) => {
      // whichever signature holds one of the two letters that differ
      const value = entries.map((each) => each.signature?.value ?? '').find((each) => /[-_]/.test(each)) ?? ''
      entry.signature.value = value.replaceAll('-', '+').replaceAll('_', '/')
    }),
}
