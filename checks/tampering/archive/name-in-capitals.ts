import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a file is there again under its name in capitals',
  layer: 'archive',
  names: 'the same name twice',
  tamper: () => refiled((files) => (files['TREE.JSON'] = files['tree.json'] ?? strToU8(''))),
}
