import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is a link to somewhere',
  layer: 'archive',
  names: 'a symbolic link',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.central.setUint8(5, 3)
      file.central.setUint32(38, (0o120777 << 16) >>> 0, true)
    }),
}
