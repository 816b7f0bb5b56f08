import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the record is cut short and the manifest left',
  layer: 'manifest',
  names: 'head',
  tamper: () => retext('entries.jsonl', (before) => `${before.trimEnd().split('\n').slice(0, -1).join('\n')}\n`),
}
