import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the name of a file goes on behind a zero',
  layer: 'archive',
  names: 'another encoding',
  tamper: () => refiled((files) => (files['tables/cases.csv\0.exe'] = strToU8('x'))),
}
