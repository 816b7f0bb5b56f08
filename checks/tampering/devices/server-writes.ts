import { nextBy, NOTE, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the server writes what people write',
  layer: 'devices',
  names: 'its role is server',
  tamper: () => appended(nextBy('server', NOTE)),
}
