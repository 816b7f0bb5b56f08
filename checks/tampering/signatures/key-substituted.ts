import { resigned, keyOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the key a device joined with is replaced by the forger’s, and the joining signed by it',
  layer: 'signatures',
  names: 'entry 8',
  tamper: () => resigned(4, { by: 'forger', change: ({ body }) => (body['key'] = keyOf('forger').key) }),
}
