import { resigned } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an altered entry is signed again by a key of the forger',
  layer: 'signatures',
  names: 'signed by another key',
  tamper: () => resigned(9, { by: 'forger', change: ({ body }) => (body['volumeMl'] = 1) }),
}
