import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed temperature is raised',
  layer: 'signatures',
  names: 'entry 11',
  tamper: () =>
    altered(11, (entry) => {
      entry.body['reading'] = { kind: 'value', value: 58.5, unit: 'Cel' }
    }),
}
