import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'bytes are hidden between two files',
  layer: 'archive',
  names: 'before it',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.before = utf8('hidden')
    }),
}
