import { without } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the description is taken out',
  layer: 'tables',
  names: 'datapackage.json',
  tamper: () => without('datapackage.json'),
}
