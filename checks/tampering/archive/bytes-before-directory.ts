import type { PackageWay } from '../package-way.ts'
import { forgedArchive, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'bytes are hidden before the directory',
  layer: 'archive',
  names: 'bytes between',
  tamper: () =>
    forgedArchive((archive) => {
      archive.beforeDirectory = utf8('hidden')
    }),
}
