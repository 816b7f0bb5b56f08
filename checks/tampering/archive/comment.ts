import type { PackageWay } from '../package-way.ts'
import { forgedArchive, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a comment is put behind the archive',
  layer: 'archive',
  names: 'a comment behind the end',
  tamper: () =>
    forgedArchive((archive) => {
      archive.comment = utf8('checked by nobody')
    }),
}
