import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file has one name in front and another in the directory',
  layer: 'archive',
  names: 'two headers',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.localName = utf8('keys.json')
    }),
}
