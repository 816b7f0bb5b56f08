import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a small file claims to unpack to three hundred times as much',
  layer: 'archive',
  names: 'times its packed size',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint32(22, 2_000_000, true)
      file.central.setUint32(24, 2_000_000, true)
    }),
}
