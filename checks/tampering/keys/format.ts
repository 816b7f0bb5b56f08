import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys names another format',
  layer: 'keys',
  names: 'format',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['format'] = 'rillmark/keys@0'
    }),
}
