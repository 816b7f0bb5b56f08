import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the checksum of a file is altered',
  layer: 'archive',
  names: 'damaged',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint32(14, 1, true)
      file.central.setUint32(16, 1, true)
    }),
}
