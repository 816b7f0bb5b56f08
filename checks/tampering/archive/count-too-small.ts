import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive counts one file too few',
  layer: 'archive',
  names: 'bytes between',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => {
        end.setUint16(8, archive.members.length - 1, true)
        end.setUint16(10, archive.members.length - 1, true)
      }
    }),
}
