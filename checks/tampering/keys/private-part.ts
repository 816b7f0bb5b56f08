import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys gives a key a private part',
  layer: 'keys',
  names: 'devices.2.key.d',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][2].key.d = 'A'.repeat(43)
    }),
}
