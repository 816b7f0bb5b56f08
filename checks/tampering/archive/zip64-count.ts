import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive says to count its files in 64 bits',
  layer: 'archive',
  names: 'ZIP64',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint16(10, 0xffff, true)
    }),
}
