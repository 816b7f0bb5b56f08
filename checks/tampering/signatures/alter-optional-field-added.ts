import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a field that was left empty is filled in after signing',
  layer: 'signatures',
  names: 'entry 15',
  tamper: () =>
    altered(15, (entry) => {
      entry.body['dueOn'] = '2026-03-20'
    }),
}
