import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the name a device joined under is altered',
  layer: 'signatures',
  names: 'entry 4',
  tamper: () => altered(4, ({ body }) => (body['name'] = 'phone of F. Moss')),
}
