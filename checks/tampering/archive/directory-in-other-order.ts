import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the directory lists the files in another order than they lie',
  layer: 'archive',
  names: 'before it',
  tamper: () =>
    forgedArchive((archive) => {
      archive.listed = archive.members.toReversed()
    }),
}
