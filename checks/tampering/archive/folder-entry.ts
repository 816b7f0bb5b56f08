import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a folder is listed as if it were a file',
  layer: 'archive',
  names: 'an unknown file',
  tamper: () => refiled((files) => (files['tables/'] = strToU8(''))),
}
