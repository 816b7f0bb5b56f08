import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file carries a comment',
  layer: 'archive',
  names: 'a comment',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.comment = utf8('not the first')
    }),
}
