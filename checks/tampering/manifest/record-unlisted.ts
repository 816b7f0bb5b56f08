import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest leaves the record out',
  layer: 'files',
  names: 'entries.jsonl',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'] = manifest['files'].filter((file: { path: string }) => file.path !== 'entries.jsonl')
    }),
}
