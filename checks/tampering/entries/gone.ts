import { without } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the record is taken out',
  layer: 'record',
  names: 'entries.jsonl',
  tamper: () => without('entries.jsonl'),
}
