import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is said to be on another disk',
  layer: 'archive',
  names: 'no attributes and disk 0',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.central.setUint16(34, 1, true)
    }),
}
