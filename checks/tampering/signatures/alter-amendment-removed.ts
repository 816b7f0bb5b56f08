import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed amendment is made a first version',
  layer: 'signatures',
  names: 'entry 19',
  tamper: () =>
    altered(19, (entry) => {
      delete (entry as Record<string, unknown>)['corrects']
    }),
}
