import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a file leads outside by backslashes',
  layer: 'archive',
  names: 'leads outside',
  tamper: () => refiled((files) => (files['tables\\..\\evil.csv'] = strToU8('x'))),
}
