import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a reader is made a lead',
  layer: 'signatures',
  names: 'entry 17',
  tamper: () => altered(17, ({ body }) => (body['role'] = 'lead')),
}
