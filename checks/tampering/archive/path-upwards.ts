import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a file is to be unpacked outside',
  layer: 'archive',
  names: 'leads outside',
  tamper: () => refiled((files) => (files['../evil.csv'] = strToU8('x'))),
}
