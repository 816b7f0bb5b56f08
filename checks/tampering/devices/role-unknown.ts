import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device joins in a role there is not',
  layer: 'record',
  names: 'body.role',
  tamper: () => altered(17, ({ body }) => (body['role'] = 'owner')),
}
