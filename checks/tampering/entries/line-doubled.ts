import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a line of the record is there twice',
  layer: 'record',
  names: 'stands where',
  tamper: () =>
    retext('entries.jsonl', (before) => {
      const lines = before.split('\n')
      return lines.toSpliced(3, 0, lines[2] ?? '').join('\n')
    }),
}
