import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file lies in the archive and not in its directory',
  layer: 'archive',
  names: 'before it',
  tamper: () =>
    forgedArchive((archive) => {
      archive.listed = archive.members.filter((file) => file !== member(archive, 'tree.json'))
    }),
}
