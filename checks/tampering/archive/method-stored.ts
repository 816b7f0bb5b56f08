import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a packed file is said not to be packed',
  layer: 'archive',
  names: 'damaged',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint16(8, 0, true)
      file.central.setUint16(10, 0, true)
    }),
}
