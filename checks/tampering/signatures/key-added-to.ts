import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature carries an algorithm of the forger’s choice',
  layer: 'record',
  names: 'signature',
  tamper: () =>
    altered(9, (entry) => {
      Object.assign(entry.signature, { alg: 'none' })
    }),
}
