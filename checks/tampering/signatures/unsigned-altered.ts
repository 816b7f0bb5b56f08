import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry that was never signed is altered',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => altered(1, ({ body }) => (body['reason'] = 'one case')),
}
