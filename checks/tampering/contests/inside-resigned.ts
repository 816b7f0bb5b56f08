import { resigned, signedBy } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contested entry is signed by the server in place of its device',
  layer: 'devices',
  names: 'signed by another key',
  tamper: () =>
    resigned(13, { by: 'server', change: ({ body }) => (body['entry'] = signedBy('server', body['entry'] as object)) }),
}
