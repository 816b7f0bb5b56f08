import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed note says something else',
  layer: 'signatures',
  names: 'entry 22',
  tamper: () =>
    altered(22, (entry) => {
      entry.body['text'] = 'all well'
    }),
}
