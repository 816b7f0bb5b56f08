import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a hidden file is put beside the record',
  layer: 'archive',
  names: 'an unknown file',
  tamper: () => refiled((files) => (files['.entries.jsonl'] = strToU8('x'))),
}
