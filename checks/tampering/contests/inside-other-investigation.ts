import { resigned, type Loose } from '../forge.ts'
import { type PackageWay, otherEntries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contested entry of another investigation is put in, and the server signs again',
  layer: 'record',
  names: 'quay-hotel',
  tamper: () =>
    resigned(13, {
      by: 'server',
      change: ({ body }) => (body['entry'] = (structuredClone(otherEntries[12]) as unknown as Loose).body['entry']),
    }),
}
