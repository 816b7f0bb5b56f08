import { without } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is taken out',
  layer: 'tables',
  names: 'tables/isolates.csv',
  tamper: () => without('tables/isolates.csv'),
}
