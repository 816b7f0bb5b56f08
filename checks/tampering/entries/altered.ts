import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is altered in the text of the record',
  layer: 'record',
  names: 'does not match its hash',
  tamper: () => retext('entries.jsonl', (before) => before.replace('two cases', 'one case')),
}
