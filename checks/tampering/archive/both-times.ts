import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is given a time of day',
  layer: 'archive',
  names: 'another date',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'entries.jsonl')
      file.local.setUint16(10, 0x6000, true)
      file.central.setUint16(12, 0x6000, true)
    }),
}
