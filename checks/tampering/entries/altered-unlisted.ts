import { strToU8 } from 'fflate'
import { text, behindManifest } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is altered behind the back of the manifest',
  layer: 'files',
  names: 'entries.jsonl',
  tamper: () =>
    behindManifest((files) => {
      files['entries.jsonl'] = strToU8(text(files, 'entries.jsonl').replace('two cases', 'no cases'))
    }),
}
