import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the record is in another encoding',
  layer: 'record',
  names: 'another encoding',
  tamper: () =>
    refiled((files) => {
      files['entries.jsonl'] = Uint8Array.of(0xff, 0xfe, 0x7b, 0)
    }),
}
