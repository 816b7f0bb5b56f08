import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'one packed byte is altered',
  layer: 'archive',
  names: 'damaged',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'entries.jsonl')
      file.data = file.data.with(200, (file.data[200] ?? 0) ^ 0x55)
    }),
}
