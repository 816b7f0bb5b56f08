import { strToU8 } from 'fflate'
import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a drawing that runs is put in place of a picture',
  layer: 'attachments',
  names: 'other bytes',
  tamper: () =>
    refiled((files) => {
      files[pathOf(files, 'attachments/')] = strToU8('<svg onload="alert(1)"/>')
    }),
}
