import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys is in another order',
  layer: 'keys',
  names: 'devices.0',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'].reverse()
    }),
}
