import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the record is emptied',
  layer: 'manifest',
  names: 'head',
  tamper: () =>
    refiled((files) => {
      files['entries.jsonl'] = strToU8('')
    }),
}
