import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file claims to be enormous',
  layer: 'archive',
  names: 'bytes unpacked',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint32(22, 0xfffffff0, true)
      file.central.setUint32(24, 0xfffffff0, true)
    }),
}
