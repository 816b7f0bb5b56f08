import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the entry of a photo is made to claim another size',
  layer: 'attachments',
  names: 'as entry 10 says',
  tamper: () =>
    altered(10, ({ body }) => {
      body['bytes'] = 12
    }),
}
