import { resigned } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an altered entry of the phone is signed by the desk',
  layer: 'signatures',
  names: 'signed by another key',
  tamper: () => resigned(9, { by: 'desk-1', change: ({ body }) => (body['volumeMl'] = 3) }),
}
