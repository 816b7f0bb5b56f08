import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'bytes are hidden behind the packed bytes of a file',
  layer: 'archive',
  names: 'bytes behind them',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'entries.jsonl')
      file.data = new Uint8Array([...file.data, ...utf8('hidden')])
      for (const header of [file.local, file.central]) {
        const at = header === file.local ? 18 : 20
        header.setUint32(at, file.data.length, true)
      }
    }),
}
