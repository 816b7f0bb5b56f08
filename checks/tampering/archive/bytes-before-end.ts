import type { PackageWay } from '../package-way.ts'
import { forgedArchive, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'bytes are hidden between the directory and the end',
  layer: 'archive',
  names: 'bytes between',
  tamper: () =>
    forgedArchive((archive) => {
      archive.beforeEnd = utf8('hidden')
    }),
}
