import { resigned, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the signature of a contested entry is stripped, and the server signs again',
  layer: 'devices',
  names: 'it is not signed',
  tamper: () =>
    resigned(13, {
      by: 'server',
      change: ({ body }) => {
        delete (body['entry'] as Partial<Loose>).signature
      },
    }),
}
