import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest counts other pictures',
  layer: 'attachments',
  names: 'counts.attachments',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['counts'].attachments = 2
    }),
}
