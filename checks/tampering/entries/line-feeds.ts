import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the lines of the record end in carriage returns',
  layer: 'record',
  names: 'entry 1',
  tamper: () => retext('entries.jsonl', (before) => before.replaceAll('\n', '\r\n')),
}
