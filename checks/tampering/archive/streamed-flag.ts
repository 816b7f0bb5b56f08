import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file says that its sizes follow',
  layer: 'archive',
  names: 'flags',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint16(6, 8, true)
      file.central.setUint16(8, 8, true)
    }),
}
