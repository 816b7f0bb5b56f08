import { resigned, signedBy, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'what is contested is no entry',
  layer: 'record',
  names: 'a known kind of entry',
  tamper: () =>
    resigned(13, {
      by: 'server',
      change: ({ body }) =>
        (body['entry'] = signedBy('phone-2', { ...(body['entry'] as Loose), kind: 'sample.eaten' })),
    }),
}
