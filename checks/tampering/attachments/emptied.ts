import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is emptied',
  layer: 'attachments',
  names: 'other bytes',
  tamper: () =>
    refiled((files) => {
      files[pathOf(files, 'attachments/')] = new Uint8Array()
    }),
}
