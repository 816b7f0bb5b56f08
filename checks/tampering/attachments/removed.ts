import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is taken out',
  layer: 'attachments',
  names: 'nothing, nor is it listed',
  tamper: () =>
    refiled((files) => {
      delete files[pathOf(files, 'attachments/')]
    }),
}
