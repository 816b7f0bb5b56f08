import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive counts its files in two ways',
  layer: 'archive',
  names: 'another count',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint16(8, 1, true)
    }),
}
