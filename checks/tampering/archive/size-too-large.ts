import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file claims to be larger than it is',
  layer: 'archive',
  names: 'damaged',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint32(22, 5000, true)
      file.central.setUint32(24, 5000, true)
    }),
}
