import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the directory claims another size',
  layer: 'archive',
  names: 'another size',
  tamper: () =>
    forgedArchive((archive) => {
      archive.end = (end) => end.setUint32(12, 10, true)
    }),
}
