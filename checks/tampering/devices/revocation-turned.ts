import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the revocation is turned on another device',
  layer: 'signatures',
  names: 'entry 16',
  tamper: () => altered(16, ({ body }) => (body['device'] = 'phone-1')),
}
