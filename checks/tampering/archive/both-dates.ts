import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is dated',
  layer: 'archive',
  names: 'another date',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'entries.jsonl')
      file.local.setUint16(12, 0x5c62, true)
      file.central.setUint16(14, 0x5c62, true)
    }),
}
