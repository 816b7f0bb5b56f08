import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table is put one folder deeper',
  layer: 'archive',
  names: 'an unknown file',
  tamper: () => refiled((files) => (files['tables/old/cases.csv'] = strToU8('x'))),
}
