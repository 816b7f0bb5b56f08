import { altered, keyOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the key a device joined with is replaced, the signature left',
  layer: 'signatures',
  names: 'entry 4',
  tamper: () => altered(4, ({ body }) => (body['key'] = keyOf('forger').key)),
}
