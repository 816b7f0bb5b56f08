import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is packed in a way nobody asked for',
  layer: 'archive',
  names: 'compression method 12',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint16(8, 12, true)
      file.central.setUint16(10, 12, true)
    }),
}
