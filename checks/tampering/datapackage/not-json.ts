import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the description is no JSON',
  layer: 'tables',
  names: 'datapackage.json',
  tamper: () => retext('datapackage.json', (before) => before.slice(2)),
}
