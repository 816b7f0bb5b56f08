import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed entry gets another id',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    altered(9, (entry) => {
      entry['id'] = '00000000-0000-8000-8000-000000000001'
    }),
}
