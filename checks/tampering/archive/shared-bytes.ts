import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'two files are the same bytes under two names',
  layer: 'archive',
  names: 'bytes it shares',
  tamper: () =>
    forgedArchive((archive) => {
      const [keys, tree] = [member(archive, 'keys.json'), member(archive, 'tree.json')]
      archive.members = archive.members.filter((file) => file !== tree)
      archive.listed = [...archive.members, { ...keys, centralName: tree.centralName }]
      archive.end = (end) => end.getUint32(0, true)
    }),
}
