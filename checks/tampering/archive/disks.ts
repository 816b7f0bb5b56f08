import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive claims to span two disks',
  layer: 'archive',
  names: 'several',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint16(4, 1, true)
    }),
}
