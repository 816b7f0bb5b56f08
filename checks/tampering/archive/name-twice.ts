import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is there twice under one name',
  layer: 'archive',
  names: 'the same name twice',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      archive.members.push({ ...file })
    }),
}
