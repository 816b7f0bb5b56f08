import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is encrypted',
  layer: 'archive',
  names: 'encrypted',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint16(6, 1, true)
      file.central.setUint16(8, 1, true)
    }),
}
