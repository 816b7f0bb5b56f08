import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive says to find its directory in 64 bits',
  layer: 'archive',
  names: 'ZIP64',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint32(16, 0xffffffff, true)
    }),
}
