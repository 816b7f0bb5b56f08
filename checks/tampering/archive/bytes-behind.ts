import type { PackageWay } from '../package-way.ts'
import { forgedArchive, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'bytes are put behind the end',
  layer: 'archive',
  names: 'no end of archive',
  tamper: () =>
    forgedArchive((archive) => {
      archive.behind = utf8('hidden')
    }),
}
