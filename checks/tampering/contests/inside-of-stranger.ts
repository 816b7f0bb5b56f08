import { resigned, nextBy, NOTE } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contested entry of a device that never joined is put in, and the server signs again',
  layer: 'devices',
  names: 'has not joined',
  tamper: () => resigned(13, { by: 'server', change: ({ body }) => (body['entry'] = nextBy('phone-9', NOTE)) }),
}
