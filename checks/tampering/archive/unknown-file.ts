import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a program is put beside the record',
  layer: 'archive',
  names: 'an unknown file',
  tamper: () => refiled((files) => (files['run.sh'] = strToU8('exit'))),
}
