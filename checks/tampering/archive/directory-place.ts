import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the directory is said to be elsewhere',
  layer: 'archive',
  names: 'breaks off',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint32(16, 4, true)
    }),
}
