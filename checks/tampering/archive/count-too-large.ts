import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive counts one file too many',
  layer: 'archive',
  names: 'breaks off',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint16(10, archive.members.length + 1, true)
    }),
}
